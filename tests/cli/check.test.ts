import { spawnSync } from "node:child_process";
import {
  closeSync,
  cpSync,
  existsSync,
  mkdirSync,
  openSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from "node:fs";
import { join } from "node:path";
import { Ajv } from "ajv";
import { describe, expect, test } from "vitest";
import type { CheckOutput } from "../../server/cli/print/check-output.js";
import checkSchema from "../../server/cli/schema/check.schema.json" with { type: "json" };
import designSchema from "../../server/cli/schema/design.schema.json" with { type: "json" };
import { schemas } from "../../server/cli/schema/generate.js";
import { PROGRAM, run, runIntoClosedPipe, SAMPLES, scratch } from "./built.js";

const ESCAPE = /\u001b/;

/** A copy of a sample that may be changed; terrain and catalogue come along. */
function copy(name: string, change: (folder: string) => void = () => {}): string {
  const folder = scratch(name);
  cpSync(SAMPLES, folder, { recursive: true });
  change(join(folder, "learning"));
  return join(folder, "learning");
}

function edit(file: string, from: string | RegExp, to: string): void {
  const text = readFileSync(file, "utf8");
  expect(text).toMatch(from);
  writeFileSync(file, text.replace(from, to));
}

describe("text", () => {
  test("shows each finding with its line, what is related, and what it all comes to", () => {
    const { status, stdout } = run(["check", "learning"]);
    expect(status).toBe(1);
    const one = stdout.slice(stdout.indexOf("error[clearance]"), stdout.indexOf("error[availability]"));
    // The layout is meant here; figures are held elsewhere.
    expect(one.replace(/\d+\.\d+/g, "#")).toMatchInlineSnapshot(`
      "error[clearance]: ALDER-HAZEL: the ray is blocked by # m at # km with k #; the objective asks 1 F1; raise HAZEL to # m or ALDER to # m
        learning/hops.hop:29:26      antenna DISH60-18 at 15 m
                                                          ^^^^
        learning/network.hop:16:15   clearance 1 F1 at k #
                                               ^^^^^^^^^^^^^^
        terrain/N47W031.hgt.gz       ground at # m, # km from ALDER
        help: As the path is, # dB of diffraction loss stand in the level.

      "
    `);
    expect(stdout).toMatch(/\n\n3 errors, .*1 accepted; 4 hops judged\n$/);
  });

  test("tells how many of all hops were judged", () => {
    const folder = copy("counted", (at) => edit(join(at, "hops.hop"), "  radio R15\n", ""));
    expect(run(["check", folder]).stdout).toMatch(/; 3 of 4 hops judged, 1 open\n$/);
    const unasked = copy("unasked", (at) => edit(join(at, "network.hop"), /^ +objective lesson\n/m, ""));
    expect(run(["check", unasked]).stdout).toMatch(/; 0 of 4 hops judged, 4 without an objective\n$/);
  });

  test("remarks on what figures rest on are one line, unless they are asked for", () => {
    const folder = copy("remarks");
    const brief = run(["check", folder]).stdout;
    expect(brief).toMatch(
      /^info: (\d+) remarks on what figures rest on: .*channel plans \(\d+\), .*; --show remarks lists them$/m,
    );
    expect(brief).not.toContain("channel-plan-unconfirmed");
    const whole = run(["check", folder, "--show", "remarks"]).stdout;
    expect(whole.match(/^info\[channel-plan-unconfirmed\]/gm)?.length).toBe(3);
    expect(whole).toContain("info[unchecked-methods]");
    // Both come to the same.
    expect(brief.split("\n").at(-2)).toBe(whole.split("\n").at(-2));
  });

  test("a line a finding, in the order of gravity, with its place, severity, rule and hop", () => {
    const folder = copy("lines");
    const { stdout, status } = run(["check", folder, "--format", "lines"]);
    expect(status).toBe(1);
    const lines = stdout.trimEnd().split("\n");
    // Of findings as grave, by file.
    expect(lines[0]).toMatch(/demands\.hop:\d+:\d+: error demand-route: CLINIC has no route: /);
    expect(lines[1]).toMatch(/hops\.hop:29:26: error clearance: ALDER-HAZEL: the ray is blocked by 2\.3 m /);
    expect(
      lines.every((line) => /^\S+\.hop:\d+:\d+: (error|warning|info|accepted) [a-z-]+: /.test(line)),
    ).toBe(true);
    const only = run(["check", folder, "--format", "lines", "--show", "error"]).stdout.trimEnd().split("\n");
    expect(only).toHaveLength(3);
  });

  test("names each of several designs and sums them up", () => {
    const { stdout } = run(["check"]);
    expect(stdout).toContain("\nLearning (learning)\n");
    expect(stdout).toMatch(/\n\d+ errors?, .*18 hops judged in 2 designs\n$/);
  });

  test("tells an acceptance with its end, and the finding again once that has passed", () => {
    const folder = copy("until", (at) =>
      edit(join(at, "hops.hop"), "accept clearance because", "accept clearance until 2027-05-01 because"),
    );
    const before = run(["check", folder, "--today", "2027-05-01"]).stdout;
    expect(before).toContain("accepted[clearance]: MAPLE-WILLOW");
    expect(before).toContain("accepted until 2027-05-01: the forester keeps these trees at 14 m");
    const after = run(["check", folder, "--today", "2027-05-02"]).stdout;
    expect(after).toContain("error[clearance]: MAPLE-WILLOW");
    expect(after).toContain("error[acceptance-expired]");
  });

  test("colours only where colour is wanted", () => {
    expect(run(["check", "learning"]).stdout).not.toMatch(ESCAPE);
    expect(run(["check", "learning"], { env: { FORCE_COLOR: "1" } }).stdout).toMatch(ESCAPE);
    expect(run(["check", "learning"], { env: { NO_COLOR: "1" } }).stdout).not.toMatch(ESCAPE);
  });

  test("control characters of a design do not reach the terminal", () => {
    const folder = copy("control", (at) => edit(join(at, "hops.hop"), '"spruce"', '"\u001b[2Jspruce"'));
    const { stdout } = run(["check", folder]);
    expect(stdout).toContain("·[2Jspruce");
    expect(stdout).not.toMatch(ESCAPE);
  });

  test("marks problems of the text itself, with the way out", () => {
    const folder = copy("typo", (at) => edit(join(at, "hops.hop"), "radio R15", "radio R16"));
    const { stdout, status } = run(["check", folder]);
    expect(status).toBe(1);
    expect(stdout).toMatch(/error\[unknown-name\].*R16.*\n.*hops\.hop:\d+:\d+ {3}radio R16\n +\^{3}\n/);
  });
});

describe("exit status", () => {
  const warned = () => copy("warned", (at) => edit(join(at, "hops.hop"), / {2}accept .*\n/, ""));

  test.each([
    ["nothing at or above the severity", ["check", "eskerfold"], 0],
    ["findings", ["check", "learning"], 1],
    ["help", ["--help"], 0],
    ["version", ["--version"], 0],
    ["no command", [], 2],
    ["unknown command", ["chek"], 2],
    ["unknown option", ["check", "--nope"], 2],
    ["unknown format", ["check", "--format", "xml"], 2],
    ["unknown severity", ["check", "--severity", "fatal"], 2],
    ["missing folder", ["check", "nowhere"], 2],
    ["no design in it", ["check", "terrain"], 2],
    ["a file in place of a folder", ["check", "learning/hops.hop"], 2],
  ])("%s", (_what, args, status) => {
    expect(run(args).status).toBe(status);
  });

  test("an option that another command has is told with the way there", () => {
    const { status, stderr } = run(["check", "--hop", "X", "eskerfold"]);
    expect(status).toBe(2);
    expect(stderr).toMatch(/^error: unknown option '--hop': .*`hopwright explain --hop HOP`/);
  });

  test("an accepted finding counts at no severity, the same without acceptance counts", () => {
    const order = copy("order", (at) => {
      const file = join(at, "hops.hop");
      edit(file, /\/\/ 1\.[\s\S]*?(?=\/\/ 4\.)/, "");
      edit(join(at, "sites.hop"), /site ALDER[\s\S]*?(?=site MAPLE)/, "");
      rmSync(join(at, "demands.hop"));
      // Frequencies by themselves, so that no remark about a channel plan is left.
      edit(file, / {2}channel .*\n/, "");
      edit(file, "transmits high", "transmits 13.087 GHz");
      edit(file, "transmits low", "transmits 12.821 GHz");
      edit(file, "accept clearance", 'accept unchecked-methods because "known"\n  accept clearance');
    });
    const accepted = run(["check", order, "--severity", "info"]);
    expect(accepted.stdout).toMatch(/\n2 accepted; 1 hop judged\n$/);
    expect(accepted.status).toBe(0);
    expect(run(["check", warned()]).stdout).toContain("error[clearance]: MAPLE-WILLOW");
  });

  test("nothing that an objective asks passes unjudged, a hop without ends included", () => {
    const begun = copy("begun", (at) =>
      edit(join(at, "hops.hop"), /\/\/ 2\.[\s\S]*/, "hop HAZEL-ROWAN {\n}\n"),
    );
    const { status, stdout } = run(["check", begun]);
    expect(status).toBe(1);
    expect(stdout).toContain(
      "error[not-judged]: clearance, capacity and availability are not judged: HAZEL-ROWAN has no end yet",
    );
  });

  test("severity moves the limit and hides nothing", () => {
    const folder = copy("info", (at) => {
      edit(
        join(at, "hops.hop"),
        /\/\/ 2\.[\s\S]*/,
        "objective idle {\n}\n\nhop HAZEL-ROWAN {\n  objective idle\n}\n",
      );
      // The hops that the demands go over are gone.
      rmSync(join(at, "demands.hop"));
    });
    expect(run(["check", folder]).status).toBe(0);
    const { status, stdout } = run(["check", folder, "--severity", "info"]);
    expect(status).toBe(1);
    expect(stdout).toBe(run(["check", folder]).stdout);
  });
});

describe("what cannot be read is one line, and the rest is judged", () => {
  test.each([
    [["check", "nowhere"], "error: nowhere: there is no such file or folder; name the folder of a design\n"],
    [
      ["check", "learning/hops.hop"],
      "error: learning/hops.hop: this is a file; name the folder of the design\n",
    ],
    [
      ["report", "nowhere", "--out", "x"],
      "error: nowhere: there is no such file or folder; name the folder of a design\n",
    ],
    [["format", "nowhere.hop"], "error: nowhere.hop: there is no such file or folder\n"],
    [
      ["explain", "clearence"],
      "error: clearence: there is no such rule or channel plan; did you mean clearance?\n",
    ],
    [["profile", "HAZEL-ALDER"], "error: HAZEL-ALDER: there is no such hop; did you mean ALDER-HAZEL?\n"],
    [
      ["explain", "--hop", "ELM-OAK", "learning"],
      "error: ELM-OAK: there is no such hop; there are ALDER-BIRCH, ALDER-HAZEL, BIRCH-ROWAN, MAPLE-WILLOW\n",
    ],
    [
      ["schema", "foo"],
      "error: output foo: choose from channels, check, demands, design, diff, explain, history, lesson, list, open-channels\n(hopwright schema --help lists what it takes)\n",
    ],
    [
      ["check", "--severity", "bad"],
      "error: --severity bad: choose from error, warning, info\n(hopwright check --help lists what it takes)\n",
    ],
    [["profile", "ALDER-HAZLE"], "error: ALDER-HAZLE: there is no such hop; did you mean ALDER-HAZEL?\n"],
  ])("%j", (args, stderr) => {
    expect(run(args)).toEqual({ status: 2, stdout: "", stderr });
  });

  test("files that are no text, too large, or terrain cut short", () => {
    const folder = copy("broken", (at) => {
      writeFileSync(join(at, "binary.hop"), Buffer.from([0x68, 0, 0xff, 0x10]));
      writeFileSync(join(at, "latin.hop"), Buffer.from([0x73, 0xe9, 0x0a]));
      writeFileSync(join(at, "large.hop"), Buffer.alloc(50 * 2 ** 20, 0x20));
      const tile = join(at, "../terrain/N47W031.hgt.gz");
      writeFileSync(tile, readFileSync(tile).subarray(0, 100_000));
    });
    const { status, stdout, stderr } = run(["check", "learning"], { cwd: join(folder, "..") });
    expect(status).toBe(2);
    expect(stderr).toBe("");
    const errors = stdout.split("\n").filter((line) => line.startsWith("error: "));
    expect(errors.map((line) => line.split(": ", 2)[1])).toEqual([
      "learning/binary.hop",
      "learning/large.hop",
      "learning/latin.hop",
      "terrain/N47W031.hgt.gz",
    ]);
    expect(stdout).toContain("4 files");
    expect(stdout).toContain("4 hops judged");
  });
});

test("terrain used with a reservation is told and is no failure", () => {
  const folder = scratch("reserved");
  mkdirSync(folder, { recursive: true });
  const rows = Array.from({ length: 40 }, (_, row) =>
    Array.from({ length: 40 }, (_, column) => (row === 1 && column === 1 ? -20000 : 100)).join(" "),
  );
  const head = "ncols 40\nnrows 40\nxllcorner -30.5\nyllcorner 47.5\ncellsize 0.005\n";
  writeFileSync(join(folder, "grid.asc"), `${head}${rows.join("\n")}\n`);
  writeFileSync(
    join(folder, "grid.prj"),
    'GEOGCS["WGS 84",DATUM["WGS_1984",SPHEROID["WGS 84",6378137,298.257223563]],PRIMEM["Greenwich",0],UNIT["degree",0.0174532925199433],AUTHORITY["EPSG","4326"]]',
  );
  writeFileSync(
    join(folder, "a.hop"),
    'network "A" {\n  terrain "grid.asc"\n}\nsite A {\n  at 47.55 -30.45\n}\nsite B {\n  at 47.6 -30.4\n}\n' +
      "hop A-B {\n  A { }\n  B { }\n}\n",
  );
  const { status, stdout } = run(["check", folder], { cwd: folder });
  expect(stdout).toContain(
    "warning: grid.asc: holds values that no land has (below -500 m, above 9000 m), taken as void; ",
  );
  expect(stdout).not.toContain("problem of reading");
  expect(status).toBe(0);
  expect(run(["report", folder, "--out", join(folder, "out")], { cwd: folder })).toMatchObject({ status: 0 });
  const json = JSON.parse(run(["check", folder, "--format", "json"], { cwd: folder }).stdout) as CheckOutput;
  expect(json.designs[0]!.terrainProblems).toMatchObject([{ file: "grid.asc", reservation: true }]);
  const sarif = JSON.parse(run(["check", folder, "--format", "sarif"], { cwd: folder }).stdout);
  expect(sarif.runs[0].invocations[0]).toMatchObject({
    executionSuccessful: true,
    toolExecutionNotifications: [{ level: "warning" }],
  });
  expect(run(["check", folder, "--format", "junit"], { cwd: folder }).stdout).not.toContain("<error");
  expect(run(["check", folder, "--format", "github"], { cwd: folder }).stdout).toContain(
    "::warning file=grid.asc::",
  );
});

describe("pipes", () => {
  test.each([[["check"]], [["check", "--format", "json"]], [["explain"]], [["schema"]]])(
    "a reader that leaves early is no error: %j",
    async (args) => {
      const { status, stderr } = await runIntoClosedPipe(args);
      expect(stderr).toBe("");
      expect(status).toBeLessThan(2);
    },
  );
});

test.skipIf(!existsSync("/dev/full"))("a full disk is told in one line, and is no finding", () => {
  const full = openSync("/dev/full", "w");
  const { status, stderr } = spawnSync(process.execPath, [PROGRAM, "check", "learning"], {
    cwd: SAMPLES,
    stdio: ["ignore", full, "pipe"],
    encoding: "utf8",
  });
  closeSync(full);
  expect(stderr).toBe("error: the output cannot be written: the disk is full\n");
  expect(status).toBe(2);
});

describe("json", () => {
  const ajv = new Ajv({ allErrors: true });

  test.each(["learning", "eskerfold", "."])("fits its schema: %s", (folder) => {
    const { stdout } = run(["check", folder, "--format", "json", "--resolved"]);
    const output = JSON.parse(stdout) as CheckOutput;
    const valid = ajv.validate(checkSchema, output);
    expect(ajv.errors ?? []).toEqual([]);
    expect(valid).toBe(true);
    for (const { resolved } of output.designs)
      expect(ajv.validate(designSchema, resolved), ajv.errorsText()).toBe(true);
    expect(stdout).not.toMatch(/null|NaN/);
  });

  test("fits its schema also where no antenna height would do", () => {
    const folder = copy("wall", (at) => edit(join(at, "hops.hop"), '"spruce" 14 m', '"wall" 400 m'));
    const output = JSON.parse(run(["check", folder, "--format", "json"]).stdout) as CheckOutput;
    const heights = output.designs[0]!.hops.flatMap(({ clearance }) => clearance ?? []);
    expect(heights).toContainEqual(expect.objectContaining({ heightNeededM: [null, null] }));
    expect(ajv.validate(checkSchema, output), ajv.errorsText()).toBe(true);
  });

  test("what a site accepts stands in the resolved design", () => {
    const folder = copy("site-accepts", (at) =>
      edit(
        join(at, "sites.hop"),
        'site ALDER "Alder knoll" {',
        'site ALDER "Alder knoll" {\n  accept rack-full because "halls are built"',
      ),
    );
    const { designs } = JSON.parse(
      run(["check", folder, "--format", "json", "--resolved"]).stdout,
    ) as CheckOutput;
    expect(designs[0]!.resolved!.acceptedAt).toEqual([
      { site: "ALDER", accepts: [{ rule: "rack-full", reason: "halls are built" }] },
    ]);
    expect(ajv.validate(designSchema, designs[0]!.resolved), ajv.errorsText()).toBe(true);
  });

  test("the schema can say no", () => {
    const output = JSON.parse(run(["check", "learning", "--format", "json"]).stdout);
    output.designs[0].hops[0].distanceM = "10 km";
    expect(ajv.validate(checkSchema, output)).toBe(false);
  });

  test("places point at the words meant", () => {
    const { stdout } = run(["check", "learning", "--format", "json"]);
    const output = JSON.parse(stdout) as CheckOutput;
    const blocked = output.designs[0]!.findings.find(({ hop }) => hop === "ALDER-HAZEL")!;
    const { file, line, column, startOffset, endOffset } = blocked.place!;
    const text = readFileSync(join(SAMPLES, "learning", file), "utf8");
    expect(text.slice(startOffset, endOffset)).toBe("15 m");
    expect(text.split("\n")[line - 1]!.slice(column - 1)).toMatch(/^15 m/);
    expect(blocked.related!.map((related) => related.file ?? related.place?.file)).toEqual([
      "network.hop",
      "../terrain/N47W031.hgt.gz",
    ]);
    expect(output).toMatchObject({
      schema: "hopwright-check/3",
      root: "learning",
      counts: { errors: 3, accepted: 1, hops: 4 },
    });
  });

  test("is the same wherever the design lies", () => {
    const folder = copy("elsewhere");
    const here = run(["check", "."], { cwd: join(SAMPLES, "learning"), env: {} });
    const there = run(["check", "."], { cwd: folder });
    expect(there).toEqual(here);
    const json = ["check", ".", "--format", "json"];
    expect(run(json, { cwd: folder })).toEqual(run(json, { cwd: join(SAMPLES, "learning") }));
  });

  test("schemas are current, and printed", () => {
    const made = schemas();
    expect(checkSchema).toEqual(made.get("check.schema.json"));
    expect(designSchema).toEqual(made.get("design.schema.json"));
    expect(JSON.parse(run(["schema"]).stdout)).toEqual(checkSchema);
    expect(JSON.parse(run(["schema", "design"]).stdout)).toEqual(designSchema);
  });
});

test("a folder with an empty design is judged, and has no hop", () => {
  const folder = scratch("empty");
  mkdirSync(folder, { recursive: true });
  writeFileSync(join(folder, "network.hop"), "");
  expect(run(["check", folder])).toMatchObject({ status: 0, stdout: "no findings; 0 hops judged\n" });
});
