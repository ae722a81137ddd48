/** `hopwright sheets`: what it writes, takes away and refuses. */
import { cpSync, existsSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { run, SAMPLES, scratch } from "./built.js";

const TODAY = ["--today", "2026-06-01"];
const filesIn = (folder: string) =>
  readdirSync(folder, { recursive: true, encoding: "utf8" })
    .filter((path) => path.endsWith(".html") || path.endsWith(".md"))
    .sort();

test("writes a page a hop and kind, the same bytes again, and takes away what is no more", () => {
  const out = scratch("sheets");
  const first = run(["sheets", "learning", "--out", out, ...TODAY]);
  expect(first.stderr).toMatch(
    /^3 errors in the design, told on the sheets of what they are about; hopwright check tells them all\n18 sheets written to /,
  );
  // The sample has errors, on purpose.
  expect(first.status).toBe(1);
  const files = filesIn(out);
  expect(files.length).toBe(18);
  expect(files).toContain("book.html");
  expect(files).toContain(join("line-up", "BIRCH-ROWAN.html"));
  const before = files.map((file) => readFileSync(join(out, file), "utf8"));
  run(["sheets", "learning", "--out", out, ...TODAY]);
  expect(filesIn(out).map((file) => readFileSync(join(out, file), "utf8"))).toEqual(before);

  const design = scratch("sheets-design");
  cpSync(SAMPLES, design, { recursive: true });
  const hops = join(design, "learning/hops.hop");
  writeFileSync(hops, readFileSync(hops, "utf8").replace(/hop MAPLE-WILLOW[\s\S]*$/, ""));
  run(["sheets", join(design, "learning"), "--out", out, ...TODAY]);
  expect(filesIn(out).filter((file) => file.includes("MAPLE"))).toEqual([]);
});

test("what is wrong with a template is told by name and place, as check finds it", () => {
  const design = scratch("sheets-fault");
  cpSync(SAMPLES, design, { recursive: true });
  const lines = ["sheets DESK {", '  logo "lost\u001b.png"', "  leave-out bill of line-up", "}", ""];
  writeFileSync(join(design, "learning/desk.hop"), lines.join("\n"));
  const asked = [
    "sheets",
    join(design, "learning"),
    "--out",
    scratch("sheets-fault-out"),
    "--sheet",
    "parts",
  ];
  const { stderr } = run([...asked, ...TODAY]);
  expect(stderr).toMatch(/error\[sheet-logo\]: the logo lost.*\.png is not shown: .*\(.*desk\.hop:2:\d+\)/);
  expect(stderr).toMatch(
    /warning\[sheet-section\]: sheets for line-up have no section bill.*\(.*desk\.hop:3:\d+\)/,
  );
  expect(stderr).not.toContain("\u001b");
});

test("the sample's templates make what they name", () => {
  const out = scratch("sheets-templates");
  const asked = ["sheets", "eskerfold", "--template", "DESK", "--format", "markdown", "--out", out];
  const { stderr } = run([...asked, ...TODAY]);
  expect(stderr).not.toContain("sheet-");
  expect(filesIn(out)).toEqual(["book.md", "frequencies.md", "licences.md", "parts.md"]);
  const text = readFileSync(join(out, "parts.md"), "utf8");
  expect(text).toContain("Planning, room 4");
  expect(text).toContain("# Teile und Kabel");
  expect(text).not.toContain("## Nach Standort");
});

test("one site: the sheet that it is built by, and nothing else", () => {
  const out = scratch("sheets-site");
  const { stderr } = run(["sheets", "learning", "--out", out, "--site", "BIRCH", ...TODAY]);
  expect(stderr).toMatch(/1 sheet written to /);
  expect(filesIn(out)).toEqual([join("installation", "BIRCH.html")]);
});

test("one hop, one kind, German, as Markdown", () => {
  const out = scratch("sheets-one");
  const asked = ["--hop", "BIRCH-ROWAN", "--sheet", "acceptance", "--language", "de", "--format", "markdown"];
  const { stderr } = run(["sheets", "learning", "--out", out, ...asked, ...TODAY]);
  expect(stderr).toMatch(/1 sheet written to /);
  expect(filesIn(out)).toEqual([join("acceptance", "BIRCH-ROWAN.md")]);
  const text = readFileSync(join(out, "acceptance", "BIRCH-ROWAN.md"), "utf8");
  expect(text).toContain("# Abnahme: ");
  expect(text).toContain("-62,8 dBm");
  expect(text).toContain("02.05.2026");
});

test("as PDF: the same bytes again, on the paper that is asked for, signs that the font lacks told", () => {
  const design = scratch("sheets-pdf-design");
  cpSync(SAMPLES, design, { recursive: true });
  const hops = join(design, "learning/hops.hop");
  writeFileSync(hops, readFileSync(hops, "utf8").replace("hop BIRCH-ROWAN", 'hop BIRCH-ROWAN "山 <b>"'));
  const out = scratch("sheets-pdf");
  const asked = ["--hop", "BIRCH-ROWAN", "--sheet", "line-up", "--format", "pdf", "--out", out, ...TODAY];
  const read = () => readFileSync(join(out, "line-up", "BIRCH-ROWAN.pdf"), "latin1");
  const { stderr } = run(["sheets", join(design, "learning"), ...asked]);
  expect(stderr).toContain("the font of PDFs lacks 山 (U+5C71)");
  expect(stderr).toContain("first in line-up/BIRCH-ROWAN.pdf");
  const first = read();
  expect(first).toMatch(/^%PDF-1\.7/);
  expect(first).toContain("/MediaBox [0 0 595.28 841.89]");
  run(["sheets", join(design, "learning"), ...asked]);
  expect(read()).toBe(first);
  run(["sheets", join(design, "learning"), ...asked, "--paper", "letter"]);
  expect(read()).toContain("/MediaBox [0 0 612 792]");
});

test.each([
  [["--paper", "foolscap"], "--paper foolscap: choose from A4, Letter"],
  [["--sheet", "rigging"], "--sheet rigging: choose from line-up, acceptance"],
  [["--site", "NOWHERE"], "NOWHERE: there is no such site"],
  [["--site", "BIRCH", "--hop", "BIRCH-ROWAN"], "--hop and --site: name one of them"],
  [["--language", "fr"], "--language fr: choose from en, de"],
  [["--hop", "NOWHERE"], "NOWHERE"],
])("refuses %j", (more, message) => {
  const out = scratch("sheets-refused");
  const { status, stderr } = run(["sheets", "learning", "--out", out, ...more, ...TODAY]);
  expect(status).toBe(2);
  expect(stderr).toContain(message);
  expect(existsSync(join(out, "line-up"))).toBe(false);
});

test("refuses the folder of the design", () => {
  const { status, stderr } = run(["sheets", "learning", "--out", "learning", ...TODAY]);
  expect(status).toBe(2);
  expect(stderr).toContain("this is the folder of the design itself");
});
