import { cpSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
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

// The output was held against the schema of OASIS (sarif-schema-2.1.0.json) and against the XML schema junit-10 of the
// Jenkins xUnit plugin when it was made; neither file is kept here, so the tests hold what those ask for and more.

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
    /^::error file=learning\/hops\.hop,line=29,endLine=29,col=23,endColumn=27,title=clearance::ALDER-HAZEL: the ray is blocked/,
  );
  expect(stdout).not.toContain("MAPLE-WILLOW: clears");
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
    `// a line more\n${text.replace("antenna A18-06 at 15 m", "antenna A18-06 at 15.5 m")}`,
  );
  expect(check().status).toBe(0);
  expect(check().stdout).not.toContain("error[");
  const states = (JSON.parse(check("--format", "sarif").stdout) as Sarif).runs[0].results.filter(
    ({ suppressions }) => !suppressions,
  );
  expect(new Set(states.map(({ baselineState }) => baselineState))).toEqual(new Set(["unchanged"]));
  writeFileSync(
    hops,
    text.replace("antenna A15-06 at 20 m\n    transmits low", "antenna A15-06 at 20 m\n    transmits high"),
  );
  const worse = check();
  expect(worse.status).toBe(1);
  expect(worse.stdout).toContain("error[both-ends-same-half]");
  expect(worse.stdout).not.toContain("error[clearance]");
  expect(check("--format", "junit").stdout).toMatch(/failures="1"/);
  writeFileSync(baseline, "{}");
  expect(check()).toMatchObject({ status: 2, stdout: "" });
});
