import { cpSync, existsSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { Ajv, type ValidateFunction } from "ajv";
import { SaxesParser } from "saxes";
import { expect, test } from "vitest";
import type { CheckOutput } from "../../server/cli/print/check-output.js";
import { run, SAMPLES, scratch } from "./built.js";

/** A copy of the samples that may be changed; the learning sample has findings of every severity, one accepted. */
function copy(name: string): string {
  const folder = scratch(name);
  cpSync(SAMPLES, folder, { recursive: true });
  return folder;
}

interface Sarif {
  readonly $schema: string;
  readonly version: string;
  readonly runs: readonly [
    {
      readonly tool: { readonly driver: { readonly rules: readonly { readonly id: string }[] } };
      readonly columnKind: string;
      readonly invocations: readonly { readonly executionSuccessful: boolean }[];
      readonly results: readonly {
        readonly ruleId: string;
        readonly ruleIndex: number;
        readonly level: string;
        readonly baselineState?: string;
        readonly partialFingerprints: Record<string, string>;
        readonly suppressions?: readonly { readonly kind: string; readonly justification: string }[];
        readonly locations: readonly {
          readonly physicalLocation?: {
            readonly artifactLocation: { readonly uri: string };
            readonly region: Readonly<Record<string, number>>;
          };
        }[];
      }[];
    },
  ];
}

/** The JSON Schema of SARIF 2.1.0, as a package of its own carries it; written in draft 4, of which it uses what draft 7 shares. */
function sarifSchema(): ValidateFunction {
  const path = createRequire(import.meta.url).resolve(
    "@microsoft/jest-sarif/lib/schemas/sarif-2.1.0-rtm.5.json",
  );
  const { $schema: _draft, id: _id, ...schema } = JSON.parse(readFileSync(path, "utf8"));
  return new Ajv({ strict: false, validateFormats: false, unicodeRegExp: false }).compile(schema);
}

/** Everything that a design can make it write: accepted, related, without a place, in odd folders, unreadable. */
test("sarif fits the schema of the standard, which can say no", () => {
  const folder = copy("sarif");
  mkdirSync(join(folder, "odd näme #1"));
  writeFileSync(join(folder, "odd näme #1/a b.hop"), 'nonsense "%"\nsite LONE {\n}\n');
  mkdirSync(join(folder, "learning/broken.hop"));
  const baseline = join(folder, "baseline.json");
  writeFileSync(baseline, run(["check", "learning", "--format", "json"], { cwd: folder }).stdout);
  const validate = sarifSchema();
  for (const args of [["."], ["learning"], ["eskerfold"], ["learning", "--baseline", baseline]]) {
    const log = JSON.parse(run(["check", ...args, "--format", "sarif"], { cwd: folder }).stdout);
    expect(validate(log), `${args[0]}: ${JSON.stringify(validate.errors)}`).toBe(true);
    for (const { locations } of log.runs[0].results)
      for (const { physicalLocation } of locations)
        if (physicalLocation)
          expect(
            existsSync(new URL(physicalLocation.artifactLocation.uri, pathToFileURL(`${folder}/`))),
          ).toBe(true);
    log.runs[0].results[0].level = "remark";
    expect(validate(log)).toBe(false);
  }
});

interface Element {
  readonly name: string;
  readonly attributes: Readonly<Record<string, string>>;
  readonly children: Element[];
  text: string;
}

/** @throws when the text is not well-formed XML */
function parsedXml(text: string): Element {
  const root: Element = { name: "", attributes: {}, children: [], text: "" };
  const open = [root];
  const parser = new SaxesParser();
  parser.on("error", (error) => {
    throw error;
  });
  parser.on("opentag", ({ name, attributes }) => {
    const element = { name, attributes: attributes as Record<string, string>, children: [], text: "" };
    open.at(-1)!.children.push(element);
    open.push(element);
  });
  parser.on("closetag", () => void open.pop());
  parser.on("text", (piece) => {
    open.at(-1)!.text += piece;
  });
  parser.write(text).close();
  return root.children[0]!;
}

/**
 * What readers of the format take, as its XML schemas in use agree: children in this order, attributes of these names.
 * No schema of it comes under a licence that says so, so it is written out here.
 */
const JUNIT: Readonly<
  Record<
    string,
    { children: readonly string[]; needed: readonly string[]; allowed?: readonly string[]; once?: boolean }
  >
> = {
  testsuites: { children: ["testsuite"], needed: [], allowed: ["name"] },
  testsuite: {
    children: ["testcase"],
    needed: ["name", "tests", "failures", "errors", "skipped", "time"],
    allowed: ["package"],
  },
  testcase: {
    children: ["failure", "error", "system-out"],
    needed: ["classname", "name", "time"],
    once: true,
  },
  failure: { children: [], needed: ["type", "message"] },
  error: { children: [], needed: ["type", "message"] },
  "system-out": { children: [], needed: [] },
};

function expectJunit(element: Element): void {
  const { name, attributes, children } = element;
  const rule = JUNIT[name];
  expect(rule, `<${name}>`).toBeDefined();
  const { children: order, needed, allowed = [], once = false } = rule!;
  expect(Object.keys(attributes)).toEqual(expect.arrayContaining([...needed]));
  expect([...needed, ...allowed]).toEqual(expect.arrayContaining(Object.keys(attributes)));
  const places = children.map((child) => order.indexOf(child.name));
  expect(places, `children of <${name}>`).not.toContain(-1);
  expect(places).toEqual(places.toSorted((a, b) => a - b));
  if (once) expect(new Set(places).size).toBe(places.length);
  for (const child of children) expectJunit(child);
  if (name !== "testsuite") return;
  const counted = (kind: string) =>
    children.filter((one) => one.children.some((inner) => inner.name === kind)).length;
  expect(attributes).toMatchObject({
    tests: String(children.length),
    failures: String(counted("failure")),
    errors: String(counted("error")),
  });
}

test("junit is well-formed and built as its readers expect, whatever stands in a design", () => {
  const folder = copy("junit");
  const hops = join(folder, "learning/hops.hop");
  const text = readFileSync(hops, "utf8");
  writeFileSync(hops, text.replace("the forester keeps", '<b>&\u0001 \\"the]]> forester keeps'));
  writeFileSync(join(folder, "learning/more.hop"), 'nonsense "<&>" \u0007\n');
  mkdirSync(join(folder, "learning/broken.hop"));
  for (const args of [["."], ["learning"], ["eskerfold"]]) {
    const root = parsedXml(run(["check", ...args, "--format", "junit"], { cwd: folder }).stdout);
    expect(root.name).toBe("testsuites");
    expectJunit(root);
  }
  const root = parsedXml(run(["check", "learning", "--format", "junit"], { cwd: folder }).stdout);
  const cases = root.children.flatMap(({ children }) => children);
  const accepted = cases.find(({ attributes }) => attributes.name === "MAPLE-WILLOW")!;
  expect(accepted.children.map(({ name }) => name)).toEqual(["system-out"]);
  expect(() => parsedXml("<testsuites><testsuite></testsuites>")).toThrow();
  expect(() => expectJunit(parsedXml("<testsuites><testcase/></testsuites>"))).toThrow();
});

test("sarif: each result has a rule, a level, a region that holds, a fingerprint; an accepted one is suppressed", () => {
  const { status, stdout } = run(["check", "learning", "--format", "sarif"]);
  expect(status).toBe(1);
  const log = JSON.parse(stdout) as Sarif;
  expect(log.version).toBe("2.1.0");
  expect(log.$schema).toMatch(/sarif-schema-2\.1\.0\.json$/);
  const [{ tool, results, columnKind, invocations }] = log.runs;
  expect(columnKind).toBe("utf16CodeUnits");
  expect(invocations).toMatchObject([{ executionSuccessful: true }]);
  const checked = JSON.parse(run(["check", "learning", "--format", "json"]).stdout) as CheckOutput;
  const findings = checked.designs.flatMap((design) => design.findings);
  expect(results.map(({ ruleId }) => ruleId)).toEqual(findings.map(({ rule }) => rule));
  for (const { ruleId, ruleIndex, level, partialFingerprints, locations } of results) {
    expect(tool.driver.rules[ruleIndex]!.id).toBe(ruleId);
    expect(["error", "warning", "note"]).toContain(level);
    expect(partialFingerprints["hopwright/v1"]).toMatch(new RegExp(`^${ruleId} `));
    const place = locations[0]?.physicalLocation;
    if (!place) continue;
    const text = readFileSync(join(SAMPLES, decodeURIComponent(place.artifactLocation.uri)), "utf8");
    const { startLine, startColumn, charOffset, charLength } = place.region as Record<string, number>;
    expect(charOffset! + charLength!).toBeLessThanOrEqual(text.length);
    expect(text.slice(0, charOffset).split("\n").length).toBe(startLine);
    expect(charOffset! - text.lastIndexOf("\n", charOffset! - 1)).toBe(startColumn);
  }
  const suppressed = results.filter(({ suppressions }) => suppressions);
  expect(suppressed.map(({ ruleId, suppressions }) => [ruleId, suppressions![0]!.kind])).toEqual([
    ["clearance", "inSource"],
  ]);
});

test("junit: a suite a design, a case a hop, one failure a case, counts that add up", () => {
  const { status, stdout } = run(["check", "--format", "junit"]);
  expect(status).toBe(1);
  const suites = [
    ...stdout.matchAll(/<testsuite name="([^"]*)" package="[^"]*" tests="(\d+)" failures="(\d+)"/g),
  ];
  expect(suites.map(([, name]) => name)).toEqual(["Eskerfold", "Learning"]);
  const parts = stdout.split("<testsuite ").slice(1);
  for (const [index, [, , tests, failures]] of suites.entries()) {
    expect(parts[index]!.match(/<testcase /g)?.length).toBe(Number(tests));
    expect(parts[index]!.match(/<failure /g)?.length ?? 0).toBe(Number(failures));
  }
  expect(stdout).toMatch(
    /<testcase classname="learning" name="ALDER-HAZEL" time="0">\n {4}<failure type="clearance"/,
  );
  // What is accepted does not fail.
  expect(stdout).toMatch(/name="MAPLE-WILLOW" time="0">\n {4}<system-out>/);
});

test("junit: signs of XML and control characters of a design do no harm", () => {
  const folder = copy("wild");
  const hops = join(folder, "learning/hops.hop");
  const text = readFileSync(hops, "utf8");
  writeFileSync(hops, text.replace("the forester keeps", '<b>&\u0001 \\"the]]> forester keeps'));
  writeFileSync(join(folder, "learning/more.hop"), 'nonsense "<&>" \u0007\n');
  const { stdout } = run(["check", "learning", "--format", "junit"], { cwd: folder });
  expect(stdout).not.toMatch(/[\u0000-\u0008\u000b\u000c\u000e-\u001f]/);
  expect(
    stdout.replace(/<\/?(testsuites?|testcase|failure|error|system-out)\b[^<>]*>|<\?xml[^<>]*>/g, ""),
  ).not.toMatch(/[<>]/);
});

test("github: a command a finding with its place, nothing of what is accepted", () => {
  const { status, stdout } = run(["check", "learning", "--format", "github"]);
  expect(status).toBe(1);
  const lines = stdout.trimEnd().split("\n");
  for (const line of lines)
    expect(line).toMatch(
      /^::(error|warning|notice) (file=[^,]+,line=\d+,endLine=\d+(,col=\d+,endColumn=\d+)?,)?title=[a-z-]+::\S/,
    );
  expect(lines.find((line) => line.includes("title=clearance"))).toMatch(
    /^::error file=learning\/hops\.hop,line=29,endLine=29,col=26,endColumn=30,title=clearance::ALDER-HAZEL: the ray is blocked/,
  );
  expect(stdout).not.toContain("MAPLE-WILLOW: clears");
});

/** What a runner of workflows reads: the name, properties up to `::`, then the message; escapes undone last. */
function commandOf(line: string) {
  const [, name, properties = "", message = ""] = /^::(\w+) ?([^:]*)::(.*)$/.exec(line)!;
  const undone = (text: string) =>
    text
      .replaceAll("%3A", ":")
      .replaceAll("%2C", ",")
      .replaceAll("%0A", "\n")
      .replaceAll("%0D", "\r")
      .replaceAll("%25", "%");
  const pairs = properties.split(",").map((pair) => pair.split("=") as [string, string]);
  return {
    name,
    properties: Object.fromEntries(pairs.map(([key, value]) => [key, undone(value)])),
    message: message.replaceAll("%0D", "\r").replaceAll("%0A", "\n").replaceAll("%25", "%"),
  };
}

test("github: percent, comma, colon and line ends of names and messages arrive as they were", () => {
  const folder = copy("annotations");
  const odd = "50%, or: 60% #1";
  cpSync(join(folder, "learning"), join(folder, odd), { recursive: true });
  const { stdout } = run(["check", odd, "--format", "github"], { cwd: folder });
  const checked = JSON.parse(run(["check", odd, "--format", "json"], { cwd: folder }).stdout) as CheckOutput;
  const findings = checked.designs.flatMap((design) => design.findings).filter(({ accepted }) => !accepted);
  const commands = stdout.trimEnd().split("\n").map(commandOf);
  expect(commands).toHaveLength(findings.length);
  for (const [index, { message, help, rule }] of findings.entries()) {
    const command = commands[index]!;
    expect(command.properties).toMatchObject({ title: rule });
    if (command.properties.file !== undefined) expect(command.properties.file).toMatch(`${odd}/`);
    expect(command.message.endsWith([message, help].filter(Boolean).join("\n"))).toBe(true);
  }
  // Both stand in the sample, or this would show nothing.
  expect(findings.some(({ message }) => message.includes("%"))).toBe(true);
  expect(findings.some(({ help }) => help !== undefined)).toBe(true);
  expect(stdout).toContain("file=50%25%2C or%3A 60%25 #1/hops.hop,");
});

test("baseline: what became graver is new, and so is what more is left unjudged", () => {
  const folder = copy("graver");
  const [hops, network, baseline] = ["learning/hops.hop", "learning/network.hop", "baseline.json"].map(
    (name) => join(folder, name),
  ) as [string, string, string];
  const [text, agreed] = [readFileSync(hops, "utf8"), readFileSync(network, "utf8")];
  const withHops = (from: string, to: string) => writeFileSync(hops, text.replace(from, to));
  const status = () => run(["check", "learning", "--baseline", baseline], { cwd: folder }).status;
  const begin = () =>
    writeFileSync(baseline, run(["check", "learning", "--format", "json"], { cwd: folder }).stdout);

  withHops("  radio R15\n", "");
  begin();
  expect(status()).toBe(0);
  // No height: clearance is open too.
  withHops("  radio R15\n", "");
  writeFileSync(hops, readFileSync(hops, "utf8").replace("antenna DISH60-15 at 20 m", "antenna DISH60-15"));
  expect(status()).toBe(1);
  begin();
  withHops("  radio R15\n", "");
  expect(status()).toBe(0);

  withHops("antenna DISH60-15 at 20 m\n    transmits low", "antenna DISH60-15 at 45 m\n    transmits low");
  writeFileSync(
    network,
    agreed.replace("  climate {", "  severity antenna-above-structure warning\n  climate {"),
  );
  begin();
  expect(status()).toBe(0);
  writeFileSync(network, agreed);
  expect(status()).toBe(1);
});

test("baseline: what was there passes, what is new fails, also one more of a kind", () => {
  const folder = copy("baseline");
  const baseline = join(folder, "baseline.json");
  const check = (...more: string[]) =>
    run(["check", "learning", "--baseline", baseline, ...more], { cwd: folder });
  writeFileSync(baseline, run(["check", "learning", "--format", "json"], { cwd: folder }).stdout);
  const hops = join(folder, "learning/hops.hop");
  const text = readFileSync(hops, "utf8");
  // Lines move and figures change: it is the same finding.
  writeFileSync(
    hops,
    `// a line more\n${text.replace("antenna DISH60-18 at 15 m", "antenna DISH60-18 at 15.5 m")}`,
  );
  expect(check().status).toBe(0);
  expect(check().stdout).not.toContain("error[");
  const states = (JSON.parse(check("--format", "sarif").stdout) as Sarif).runs[0].results.filter(
    ({ suppressions }) => !suppressions,
  );
  expect(new Set(states.map(({ baselineState }) => baselineState))).toEqual(new Set(["unchanged"]));
  writeFileSync(
    hops,
    text.replace(
      "antenna DISH60-15 at 20 m\n    transmits low",
      "antenna DISH60-15 at 20 m\n    transmits high",
    ),
  );
  const worse = check();
  expect(worse.status).toBe(1);
  expect(worse.stdout).toContain("error[both-ends-same-half]");
  expect(worse.stdout).not.toContain("error[clearance]");
  expect(check("--format", "junit").stdout).toMatch(/failures="1"/);
  writeFileSync(baseline, "{}");
  expect(check()).toMatchObject({ status: 2, stdout: "" });
  // Keys of an earlier version were made of sentences: it is refused in one line that says what to do.
  for (const version of [1, 2]) {
    writeFileSync(baseline, JSON.stringify({ schema: `hopwright-check/${version}`, designs: [] }));
    const refused = check();
    expect(refused).toMatchObject({ status: 2, stdout: "" });
    expect(refused.stderr.trim()).toMatch(
      /^error: \S+: is of an earlier version; write it anew with hopwright check --format json$/,
    );
  }
});
