import {
  cpSync,
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from "node:fs";
import { join } from "node:path";
import { Ajv } from "ajv";
import { describe, expect, test } from "vitest";
import { TEXT_RULES } from "../../language/check/text-rules.js";
import type { CheckOutput } from "../../server/cli/print/check-output.js";
import type { ExplainOutput } from "../../server/cli/print/explain-output.js";
import { fileNames } from "../../server/report/names.js";
import { RULES } from "../../shared/rules/index.js";
import { converse, run, SAMPLES, scratch } from "./built.js";

const NO_FIGURE = /NaN|Infinity|undefined|\[object/;

function filesBelow(folder: string): string[] {
  return readdirSync(folder, { recursive: true, encoding: "utf8" })
    .filter((path) => statSync(join(folder, path)).isFile())
    .sort();
}

describe("report", () => {
  test("writes an overview, a parts list, demands, a page a hop, a site and an entry in use, and nothing else", () => {
    const out = scratch("report");
    const { status, stdout, stderr } = run(["report", "learning", "--out", out, "--today", "2026-11-01"]);
    expect(stdout).toBe("");
    expect(stderr).toMatch(/^3 errors in the design, told on the pages\n23 pages written to /);
    // Two of its hops and a demand are wrong on purpose.
    expect(status).toBe(1);
    const files = filesBelow(out).filter((path) => path !== ".hopwright-report");
    const hops = ["ALDER-BIRCH", "ALDER-HAZEL", "BIRCH-ROWAN", "MAPLE-WILLOW"];
    const ofHop = (hop: string) => ["html", "md"].map((ending) => `hops/${hop}.${ending}`);
    const drawings = (hop: string) =>
      ["chain", "level-1", "level-2", "profile"].map((name) => `hops/${hop}-${name}.svg`);
    const sites = ["ALDER", "BIRCH", "HAZEL", "MAPLE", "ROWAN", "WILLOW"];
    const parts = ["antenna-DISH30-23", "antenna-DISH60-13", "antenna-DISH60-15", "antenna-DISH60-18"];
    parts.push("radio-R13", "radio-R15", "radio-R18", "radio-R23");
    const ofSite = ["above.svg", "mast.svg"].map((name) => `-${name}`);
    const expected = [
      ...sites.flatMap((site) => [".html", ".md", ...ofSite].map((ending) => `sites/${site}${ending}`)),
      ...hops.flatMap((hop) => [...ofHop(hop), ...drawings(hop)]),
      ...["catalogue", ...parts.map((part) => `catalogue/${part}`)].flatMap((page) => [
        `${page}.html`,
        `${page}.md`,
      ]),
      "index-diagram.svg",
      "index-map.svg",
      "index.html",
      "index.md",
      "demands.html",
      "demands.md",
      "calibration.html",
      "calibration.md",
      "demands-loads.svg",
      "parts.html",
      "parts.md",
    ];
    expect(files).toEqual(expected.sort());
    for (const file of files) expect(readFileSync(join(out, file), "utf8"), file).not.toMatch(NO_FIGURE);
  });

  test("every link leads to a file, in HTML and in Markdown, with several designs", () => {
    const out = scratch("linked");
    expect(run(["report", ".", "--out", out]).status).toBe(1);
    const files = filesBelow(out).filter((path) => path !== ".hopwright-report");
    let links = 0;
    for (const file of files.filter((path) => !path.endsWith(".svg"))) {
      const text = readFileSync(join(out, file), "utf8");
      for (const [, target] of text.matchAll(/(?:href="|\]\()([^")]+)/g)) {
        expect(existsSync(join(out, file, "..", decodeURIComponent(target!))), `${file}: ${target}`).toBe(
          true,
        );
        links++;
      }
      expect(text, file).not.toMatch(NO_FIGURE);
    }
    expect(links).toBeGreaterThan(100);
  });

  test("tells what the reviewer asks for: figures, finding, exception, method, caution", () => {
    const out = scratch("told");
    run(["report", "learning", "--out", out, "--only", "markdown", "--today", "2026-11-01"]);
    const blocked = readFileSync(join(out, "hops/ALDER-HAZEL.md"), "utf8");
    expect(blocked).toContain("**error** `clearance` the ray is blocked by ");
    expect(blocked).toContain("| Azimuth, true north | 62.11° | 242.19° |");
    expect(blocked).toContain("| Free-space loss | Rec. ITU-R P.525-4 section 2 | verified |");
    expect(blocked).toContain("Keep-out distance in front of the antenna");
    expect(blocked).toContain("Local codes, the owner of the structure and licensed practice come first");
    const accepted = readFileSync(join(out, "hops/MAPLE-WILLOW.md"), "utf8");
    expect(accepted).toContain("Accepted with no end: the forester keeps these trees at 14 m");
    expect(readFileSync(join(out, "index.md"), "utf8")).toContain("## Accepted exceptions");
    expect(filesBelow(out).some((file) => file.endsWith(".html"))).toBe(false);
  });

  test("one hop alone", () => {
    const out = scratch("alone");
    // The exit status is that of what was judged.
    expect(run(["report", "learning", "--out", out, "--only", "html", "--hop", "ALDER-HAZEL"]).status).toBe(
      1,
    );
    expect(filesBelow(out)).toEqual([".hopwright-report", "hops/ALDER-HAZEL.html"]);
    expect(readFileSync(join(out, "hops/ALDER-HAZEL.html"), "utf8")).not.toContain("href=");
  });

  test.each([
    [["--hop", "HAZEL-ALDER"], "error: HAZEL-ALDER: there is no such hop; did you mean ALDER-HAZEL?\n"],
    [["--hop", "ALDER-HAZLE"], "error: ALDER-HAZLE: there is no such hop; did you mean ALDER-HAZEL?\n"],
    [
      ["--only", "docx"],
      /^error: --only docx: a report is written as html, markdown, pdf or html,markdown,pdf\n\(hopwright report --help /,
    ],
  ])("%j cannot be done", (more, said) => {
    const { status, stderr } = run(["report", "learning", "--out", scratch("none"), ...more]);
    expect(status).toBe(2);
    if (typeof said === "string") expect(stderr).toBe(said);
    else expect(stderr).toMatch(said);
    expect(existsSync(scratch("none"))).toBe(false);
  });

  test("a folder that cannot be made is one line", () => {
    writeFileSync(scratch("file"), "");
    const { status, stderr } = run(["report", "learning", "--out", scratch("file")]);
    expect(status).toBe(2);
    expect(stderr).toMatch(
      /^error: .*file.*: cannot be written: a file stands where a folder is needed; name another folder\n$/,
    );
  });
});

test("pages of awkwardly named hops have names that every file system bears", () => {
  const names = [...fileNames(["A/B", "CON", "con", "..", ".x", "Å-Ö", "a".repeat(300), "A_B"]).values()];
  expect(new Set(names.map((name) => name.toLowerCase())).size).toBe(names.length);
  // What a hop's page is called does not hang on the others, nor on their order.
  for (const word of ["A/B", "Å-Ö", "KELD TARN"])
    expect(fileNames([word]).get(word)).toBe(fileNames(["A_B", "a/b", word, "KELD-TARN"]).get(word));
  expect(fileNames(["keld", "KELD"]).get("KELD")).toBe(fileNames(["KELD", "keld"]).get("KELD"));
  expect(fileNames(["KELD-TARN"]).get("KELD-TARN")).toBe("KELD-TARN");
  for (const name of names) expect(name).toMatch(/^(?!\.)(?!con$)[^/\\:*?"<>|]{1,110}(?<!\.)$/i);
});

/** What `check` says of the only criterion of a hop of the learning sample. */
function clearanceOf(name: string) {
  const { stdout } = run(["check", "learning", "--format", "json"]);
  const output = JSON.parse(stdout) as CheckOutput;
  return output.designs[0]!.hops.find(({ hop }) => hop === name)!.clearance[0]!;
}

describe("profile", () => {
  test("names the least height of either antenna, the one that the finding asks for", () => {
    const { stdout } = run(["profile", "ALDER-HAZEL", "learning"]);
    expect(stdout).toMatch(/^Least antenna height, the other end as it is: ALDER 33\.7 m, HAZEL 30\.7 m$/m);
    expect(run(["check", "learning"]).stdout).toContain("raise HAZEL to 30.7 m or ALDER to 33.7 m");
  });

  test("as CSV: a row a point, with the clearance that check tells", () => {
    const { stdout, status } = run(["profile", "ALDER-HAZEL", "learning", "--format", "csv"]);
    expect(status).toBe(0);
    const [head, ...rows] = stdout.trimEnd().split("\n");
    expect(head).toBe("distance_m,ground_m,bulge_m,ray_m,clearance_m,f1_m,clearance_f1,cover_m");
    const points = rows.map((row) => row.split(",").map(Number));
    const worst = points.slice(1, -1).reduce((a, b) => (b[6]! < a[6]! ? b : a));
    const told = clearanceOf("ALDER-HAZEL");
    expect(worst[4]).toBeCloseTo(told.clearanceM, 2);
    expect(worst[6]).toBeCloseTo(told.fraction, 2);
    expect(worst[0]).toBeCloseTo(told.distanceM, 1);
    // Antennas 15 m above ground at both ends.
    expect([points[0]![4], points.at(-1)![4]]).toEqual([15, 15]);
  });

  test("as SVG: a drawing by itself", () => {
    const { stdout } = run(["profile", "ALDER-HAZEL", "learning", "--format", "svg"]);
    expect(stdout).toMatch(/^<svg xmlns="http:\/\/www\.w3\.org\/2000\/svg"[^>]*><style>/);
    expect(stdout).not.toMatch(/var\(|NaN/);
  });

  test("as text: drawing and criteria", () => {
    const { stdout } = run(["profile", "ALDER-HAZEL", "learning"]);
    expect(stdout).toContain("ALDER-HAZEL: 9.12 km from ALDER to HAZEL");
    expect(stdout).toMatch(/─x+─/);
    const { fraction, clearanceM } = clearanceOf("ALDER-HAZEL");
    expect(stdout).toContain(
      `Clearance at k 1.33: ${fraction.toFixed(2)} F1 (${clearanceM.toFixed(1)} m) at `,
    );
    expect(stdout).toContain(" km; 1 F1 asked: not met, the ray is blocked\n");
    // A terminal of 80 columns shows the drawing without breaking its rows.
    const drawing = stdout.slice(0, stdout.indexOf("HAZEL: antenna")).split("\n");
    expect(Math.max(...drawing.map((row) => row.length))).toBeLessThanOrEqual(80);
  });

  test("without terrain along the path a sentence stands where the drawing would", () => {
    const folder = scratch("uncovered");
    cpSync(SAMPLES, folder, { recursive: true });
    rmSync(join(folder, "terrain/N47W031.hgt.gz"));
    const { stdout } = run(["profile", "ALDER-HAZEL", join(folder, "learning")]);
    expect(stdout).toContain("No terrain has a height along this path, so nothing is drawn");
    expect(stdout).not.toContain("lower edge of the first Fresnel zone");
  });

  test("a hop that says too little is told so", () => {
    const folder = scratch("little");
    mkdirSync(folder, { recursive: true });
    writeFileSync(
      join(folder, "a.hop"),
      "site A {\n  at 47.5 -30.5\n}\n\nsite B {\n}\n\nhop A-B {\n  A {\n  }\n  B {\n  }\n}\n\nhop C {\n}\n",
    );
    expect(run(["profile", "A-B", folder])).toMatchObject({ status: 2, stdout: "" });
    expect(run(["profile", "A-B", folder]).stderr).toMatch(
      /^error: A-B: there is no profile: .*positions.*\n$/,
    );
    expect(run(["profile", "C", folder]).stderr).toBe(
      "error: C: this hop cannot be evaluated yet; hopwright check says what is wrong\n",
    );
  });
});

describe("explain", () => {
  test.each([
    ["--arrangement", "2+0 xpic"],
    ["--card", "FERN"],
    ["--radio", "R15"],
  ])("what teaches %s %s as JSON, by its schema, says what the text says", (option, name) => {
    const where = option === "--arrangement" ? [] : ["eskerfold"];
    const { stdout, status } = run(["explain", option, name, ...where, "--format", "json"]);
    expect(status).toBe(0);
    const lesson = JSON.parse(stdout);
    const schema = JSON.parse(run(["schema", "lesson"]).stdout);
    const ajv = new Ajv({ allErrors: true });
    expect(ajv.validate(schema, lesson), ajv.errorsText()).toBe(true);
    const text = run(["explain", option, name, ...where]).stdout;
    for (const { title } of lesson.sections) expect(text).toContain(title);
  });

  test("of a hop as JSON, by its schema, is what the text says", () => {
    const asked = ["explain", "--hop", "ALDER-HAZEL", "learning"];
    const output = JSON.parse(run([...asked, "--format", "json"]).stdout) as ExplainOutput;
    const validate = new Ajv({ strict: false }).compile(JSON.parse(run(["schema", "explain"]).stdout));
    expect(validate(output), JSON.stringify(validate.errors)).toBe(true);
    const text = run(asked).stdout;
    expect(output.figures.length).toBeGreaterThan(10);
    for (const { figure, value } of output.figures) expect(text).toContain(`${figure}: ${value}\n`);
    expect(run(["explain", "clearance", "--format", "json"]).stderr).toMatch(
      /name it with --hop, --site, --arrangement or --card\n$/,
    );
  });

  test("of a site's equipment, as text and as JSON by the same schema", () => {
    const asked = ["explain", "--site", "HIGHFOLD", "eskerfold"];
    const text = run(asked).stdout;
    const output = JSON.parse(run([...asked, "--format", "json"]).stdout) as ExplainOutput;
    const validate = new Ajv({ strict: false }).compile(JSON.parse(run(["schema", "explain"]).stdout));
    expect(validate(output), JSON.stringify(validate.errors)).toBe(true);
    expect(output).toMatchObject({ site: "HIGHFOLD" });
    for (const { figure, value } of output.figures) expect(text).toContain(`${figure}: ${value}\n`);
    expect(output.figures.map(({ figure }) => figure.split(" of ")[0])).toContain("consumption");
    const hop = run(["explain", "--hop", "HIGHFOLD-TOLLBECK", "eskerfold"]).stdout;
    expect(hop).toMatch(/^loss of the IF cable at HIGHFOLD: /m);
    expect(hop).toMatch(/^voltage at the unit at TOLLBECK: /m);
  });

  test.each([
    [["--site", "HIGHFOLT", "eskerfold"], "HIGHFOLT: there is no such site; did you mean HIGHFOLD?"],
    [["--site", "HIGHFOLD", "--hop", "X"], "explain takes --hop or --site, not both"],
    [["--site", "HIGHFOLD", "eskerfold", "more"], "explain --site takes one folder; more is one too many"],
  ])("a site that cannot be explained: %s", (asked, stderr) => {
    expect(run(["explain", ...asked])).toEqual({ status: 2, stdout: "", stderr: `error: ${stderr}\n` });
  });

  test("an arrangement as its page says it, and what ambiguous words may mean", () => {
    const { stdout, status } = run(["explain", "--arrangement", "1+1  hot-standby"]);
    expect(status).toBe(0);
    expect(stdout).toMatch(/^1\+1 hot-standby\nHot standby on one antenna\.\n/);
    for (const title of ["What each end needs", "What it protects", "What it costs in dB", "Cautions"])
      expect(stdout).toContain(`\n${title}\n`);
    expect(stdout).toMatch(/unequal {2}normal +1 +Cm\+Cm +3\.20 dB\n/);
    for (const line of stdout.split("\n")) expect(line.length).toBeLessThanOrEqual(80);
  });

  test("a part of the catalogue: what it is, where it fits, who uses it", () => {
    const card = run(["explain", "--card", "SQUALL", "eskerfold"]).stdout;
    expect(card).toContain("  - COPSE: slots 2 to 4\n");
    expect(card.replace(/\s+/g, " ")).toMatch(
      /- OSTREL: slot \d+ of HEDGE, proposed; units of [A-Z, -]*HIGHFOLD-OSTREL/,
    );
    expect(card).toContain("  - slot-wrong-kind: ");
    const radio = run(["explain", "--radio", "R15", "--dir", "eskerfold"]).stdout;
    expect(radio).toContain("  - HIGHFOLD-TOLLBECK, 1+0\n");
    expect(radio).toMatch(/Couplers of the catalogue for its band: H15-E/);
    expect(run(["explain", "--antenna", "DISH120-8", "eskerfold"]).stdout).toContain("SIFTLAW-HIGHFOLD, 1+0");
    expect(run(["explain", "--coupler", "O11", "eskerfold"]).stdout).toContain("HIGHFOLD-OSTREL, 2+0 xpic");
    expect(run(["explain", "--chassis", "HEDGE", "eskerfold"]).stdout).toContain("  - OSTREL\n");
    expect(run(["explain", "--cable", "COAX-10", "eskerfold"]).stdout).toContain("cable-too-short");
    expect(run(["explain", "--feeder", "FLEX-8", "eskerfold"]).stdout).toContain("OSTREL-LARKHOWE");
  });

  test.each([
    [
      ["--arrangement", "1+1 xpic"],
      '1+1 xpic may be "1+1 xpic two-units" (one carrier, protected by its twin on the other polarization); "1+1 xpic four-units" (two carriers on one channel, each polarization with its hot standby)',
    ],
    [
      ["--card", "HEDGE", "eskerfold"],
      "HEDGE is no card but a chassis; hopwright explain --chassis HEDGE tells of it",
    ],
    [
      ["--hop", "OSTREL", "eskerfold"],
      "OSTREL: there is no such hop; it is a site, which hopwright explain --site tells of",
    ],
    [["--arrangement", "2+0", "xpic"], 'an arrangement of several words stands between quotes: "2+0 xpic"'],
    [["--card", "FERM", "eskerfold"], "FERM: there is no such card; did you mean FERN?"],
    [["--card", "FERN", "--radio", "R15"], "explain takes --card or --radio, not both"],
    [
      ["F.595", "--format", "json"],
      "explain --format json explains a hop, a site, an arrangement or a part of the catalogue: name it with --hop, --site, --arrangement or --card",
    ],
  ])("a lesson that cannot be told: %s", (asked, stderr) => {
    expect(run(["explain", ...asked])).toEqual({ status: 2, stdout: "", stderr: `error: ${stderr}\n` });
  });

  test("every rule has a page, and the list names them all", () => {
    const list = run(["explain"]).stdout.trimEnd().split("\n");
    expect(list.map((line) => line.split(" ")[0])).toEqual([...RULES.keys(), ...Object.keys(TEXT_RULES)]);
    const page = run(["explain", "clearance"]).stdout;
    expect(page).toMatch(/^clearance \(error\)\nThe path must clear/);
    for (const title of ["What is checked", "Why it matters", "How to mend it", "Source", "This is found"])
      expect(page).toContain(`\n${title}\n`);
    for (const line of page.split("\n")) expect(line.length).toBeLessThanOrEqual(80);
  });

  test("a rule of the text", () => {
    expect(run(["explain", "unit-missing"]).stdout).toContain("A quantity carries its unit");
  });

  test("a channel plan: every row with its standing, every channel with both frequencies", () => {
    const { stdout, status } = run(["explain", "F.595"]);
    expect(status).toBe(0);
    // F.595-4 as a regulator quotes it: n = 35 of 27.5 MHz is 18662.5 / 19672.5 MHz.
    expect(stdout).toContain("   35  18662.5 / 19672.5");
    expect(stdout).toContain("\n27.5 MHz wide, halves 1010 MHz apart\n  confirmed\n");
    expect(stdout).toContain(
      "55 MHz wide, halves 1010 MHz apart\n  confirmed by licensed links for channels 7 to 16; the count of channels is\n  from memory\n",
    );
    expect(stdout).toContain("halves 1120 MHz apart\n  from memory, unconfirmed\n");
    expect(stdout).toContain("F.595-18GHz-centre-gap-20, 18 GHz centre gap\n");
    expect(stdout).toContain("look it up in the plan of");
    for (const line of stdout.split("\n")) expect(line.length).toBeLessThanOrEqual(80);
  });

  test("a plan narrowed to a width or a channel, as a hop writes it", () => {
    const wide = run(["explain", "F.595", "/", "55", "MHz"]).stdout;
    expect(wide.match(/MHz wide/g)).toHaveLength(1);
    expect(wide.match(/ \/ 1[89]\d/g)).toHaveLength(17);
    expect(run(["explain", "F.595/55MHz"]).stdout).toBe(wide);
    expect(run(["explain", "F.595 / 0.055 GHz"]).stdout).toBe(wide);
    const one = run(["explain", "F.595 / 55 MHz / 4"]).stdout;
    expect(one).toContain("    4  17920 / 18930\n");
    expect(one.replace(/\s+/g, " ")).toContain(
      "confirmed by licensed links for channels 7 to 16; that there is a channel 4 is from memory",
    );
    expect(run(["explain", "F.595 / 55 MHz / 7"]).stdout).toContain("  confirmed by licensed links\n");
    expect(one.match(/ \/ 1[89]\d/g)).toHaveLength(1);
  });

  test("a plan of the design, where its folder is named", () => {
    const own = run(["explain", "ESK38", "/", "56", "MHz", "--dir", "eskerfold"]);
    expect(own).toMatchObject({ status: 0, stderr: "" });
    expect(own.stdout).toContain("ESK38\nstated in the design\n");
    // Both samples share the catalogue.
    expect(run(["explain", "ESK38", "/", "56", "MHz", "--dir", "."]).stdout).toBe(own.stdout);
    expect(run(["explain", "ESK38"])).toMatchObject({ status: 2, stdout: "" });
  });

  test.each([
    ["F.599", "error: F.599: there is no such rule or channel plan; did you mean F.595?\n"],
    ["f.595", "error: f.595: there is no such rule or channel plan; did you mean F.595?\n"],
    ["?", "error: ?: there is no such rule or channel plan; hopwright explain lists the rules\n"],
    [
      "F.637 / 55 MHz",
      "error: no channel of F.637 is 55 MHz wide; there are 3.5 MHz, 7 MHz, 14 MHz, 28 MHz, 56 MHz, 112 MHz\n",
    ],
    ["F.595 / 55 MHz / 18", "error: F.595 has no channel 18 of 55 MHz; there are 1 to 17\n"],
    ["F.595 / 55 m", "error: 55 m: a channel width is in MHz\n"],
    ["F.595 / 55", "error: 55: a channel width is in MHz\n"],
    ...["F.595 /", "F.595 / wide", "F.595 / 55 MHz / four", "F.595 / 55 MHz / 4 / 5"].map((subject) => [
      subject,
      `error: ${subject}: a channel is written PLAN / WIDTH / NUMBER, as F.595 / 55 MHz / 4\n`,
    ]),
  ])("%s cannot be explained", (subject, stderr) => {
    expect(run(["explain", subject])).toEqual({ status: 2, stdout: "", stderr });
  });

  test("the chain of a hop's figures, in the folder given and in this one", () => {
    const { stdout, status } = run(["explain", "--hop", "ALDER-HAZEL", "learning"]);
    expect(status).toBe(0);
    expect(stdout).toContain("path length: 9.12 km\n");
    expect(stdout).toContain("  input   median k = 1.33 (network climate)\n");
    expect(run(["explain", "--hop", "ALDER-HAZEL"], { cwd: join(SAMPLES, "learning") }).stdout).toBe(stdout);
  });
});

describe("format", () => {
  function folderOf(name: string, texts: Record<string, string>): string {
    const folder = scratch(name);
    mkdirSync(folder, { recursive: true });
    for (const [file, text] of Object.entries(texts)) writeFileSync(join(folder, file), text);
    return folder;
  }

  const LOOSE = "site KELD { at 47.5 -30.5\nground 12m }\n";

  test("rewrites what differs, lists it, and has nothing to do the second time", () => {
    const folder = folderOf("loose", { "a.hop": LOOSE });
    const good = run(["format", folder], { cwd: folder });
    expect(good).toEqual({ status: 0, stdout: "a.hop\n", stderr: "" });
    const text = readFileSync(join(folder, "a.hop"), "utf8");
    expect(text).not.toBe(LOOSE);
    expect(text.split("\n").length).toBeGreaterThan(3);
    expect(run(["format", folder], { cwd: folder })).toEqual({ status: 0, stdout: "", stderr: "" });
    expect(readdirSync(folder)).toEqual(["a.hop"]);
  });

  test("a folder with nothing to format is told, as the name may be wrong", () => {
    const folder = folderOf("bare", { "notes.txt": "" });
    expect(run(["format", "--check", "."], { cwd: folder })).toEqual({
      status: 2,
      stdout: "",
      stderr: "error: .: no .hop file in this folder or below; there is nothing to format\n",
    });
  });

  test("--check changes nothing", () => {
    const folder = folderOf("checked", { "a.hop": LOOSE });
    expect(run(["format", "--check", "."], { cwd: folder })).toEqual({
      status: 1,
      stdout: "a.hop\n",
      stderr: "",
    });
    expect(readFileSync(join(folder, "a.hop"), "utf8")).toBe(LOOSE);
  });

  test("text that cannot be read stays as it is, with its place", () => {
    const folder = folderOf("unread", { "a.hop": "site KELD {\n  }\n}\n", "b.hop": LOOSE });
    const { status, stdout, stderr } = run(["format", "a.hop", "b.hop"], { cwd: folder });
    expect(status).toBe(2);
    expect(stdout).toBe("b.hop\n");
    expect(stderr).toMatch(/^error: a\.hop:3:1: left as it is: .*\n$/);
    expect(readFileSync(join(folder, "a.hop"), "utf8")).toBe("site KELD {\n  }\n}\n");
  });

  test("a link stays a link, and rights stay", () => {
    const folder = folderOf("linked-file", { "real.txt": LOOSE });
    symlinkSync("real.txt", join(folder, "a.hop"));
    expect(run(["format", "a.hop"], { cwd: folder }).stdout).toBe("a.hop\n");
    expect(readFileSync(join(folder, "real.txt"), "utf8")).not.toBe(LOOSE);
    expect(run(["format", "a.hop"], { cwd: folder }).stdout).toBe("");
  });

  test("the samples are in the one layout", () => {
    expect(run(["format", "--check", "."])).toEqual({ status: 0, stdout: "", stderr: "" });
  });
});

test("the language server answers over standard input and output, and ends when told", async () => {
  const message = (body: object) => {
    const text = JSON.stringify({ jsonrpc: "2.0", ...body });
    return `Content-Length: ${Buffer.byteLength(text)}\r\n\r\n${text}`;
  };
  const { stdout, status } = await converse(
    ["lsp", "--stdio"],
    [
      [
        message({
          id: 1,
          method: "initialize",
          params: { processId: null, rootUri: null, capabilities: {} },
        }),
        '"hoverProvider":true',
      ],
      [message({ id: 2, method: "shutdown" }), '"id":2'],
      [message({ method: "exit" }), ""],
    ],
  );
  expect(stdout).toContain("Content-Length: ");
  expect(status).toBe(0);
});

test("samples are not changed by any of this", () => {
  const before = scratch("before");
  cpSync(SAMPLES, before, { recursive: true });
  run(["report", "learning", "--out", scratch("again")]);
  expect(filesBelow(SAMPLES)).toEqual(filesBelow(before));
});
