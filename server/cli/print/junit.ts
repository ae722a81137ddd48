/** `check` as JUnit's XML, which most CI systems show: a suite a design, a case a hop, a failure where something counts. */

import { escaped } from "../../../shared/report/document/markup.js";
import { isUnread } from "../../files/hop-files.js";
import type { JudgedDesign, JudgedFolder } from "../../findings/judged-folder.js";
import { shownFrom } from "../../findings/paths.js";
import type { PlacedFinding } from "../../findings/placed.js";
import { hopsOf } from "../../findings/summary.js";
import type { Checked, CheckFormat } from "./format.js";

export const checkJunit: CheckFormat = {
  name: "junit",
  what: "JUnit's XML, which most CI systems show: a suite a design, a case a hop",
  print: ({ judged, ...options }) => printJunit(judged, options),
};

type JunitOptions = Pick<Checked, "cwd" | "counts">;

function* printJunit(judged: JudgedFolder, options: JunitOptions): Iterable<string> {
  yield '<?xml version="1.0" encoding="UTF-8"?>\n<testsuites name="hopwright">\n';
  if (judged.unreadable.length > 0) {
    const errors = judged.unreadable.map(({ path, message }) => ({ path, message }));
    yield suite(
      "files",
      shownFrom(options.cwd, judged.root),
      errors.map((one) => brokenCase(one, options)),
      {
        failures: 0,
        errors: errors.length,
      },
    );
  }
  for (const design of judged.designs) yield designSuite(design, options);
  yield "</testsuites>\n";
}

function designSuite(design: JudgedDesign, options: JunitOptions): string {
  const folder = shownFrom(options.cwd, design.root);
  const byHop = Map.groupBy(design.findings, ({ hop }) => hop ?? "");
  const names = [...hopsOf(design), ...(byHop.has("") ? [""] : [])];
  const cases = names.map((name) => caseOf(name, folder, byHop.get(name) ?? [], options));
  const broken = design.terrainProblems.filter(isUnread).map((one) => brokenCase(one, options));
  return suite(design.title ?? folder, folder, [...cases.map(({ text }) => text), ...broken], {
    failures: cases.filter(({ failed }) => failed).length,
    errors: broken.length,
  });
}

/** @param name of a hop; empty: what belongs to none */
function caseOf(name: string, folder: string, findings: readonly PlacedFinding[], options: JunitOptions) {
  const failing = findings.filter(options.counts);
  const others = findings.filter((finding) => !options.counts(finding));
  const head = `  <testcase classname="${attribute(folder)}" name="${attribute(name || "network, sites and catalogue")}" time="0"`;
  const failures = failing.length === 0 ? "" : failure(failing, options);
  const said = others.length === 0 ? "" : `    <system-out>${escaped(lines(others, options))}</system-out>\n`;
  const text = failures + said === "" ? `${head}/>\n` : `${head}>\n${failures}${said}  </testcase>\n`;
  return { text, failed: failing.length > 0 };
}

/** One element a case: readers of the format take no more. */
function failure(findings: readonly PlacedFinding[], options: JunitOptions): string {
  const [first] = findings as [PlacedFinding];
  const more = findings.length > 1 ? ` (and ${findings.length - 1} more)` : "";
  const head = `type="${attribute(first.rule)}" message="${attribute(first.message + more)}"`;
  return `    <failure ${head}>${escaped(lines(findings, options))}</failure>\n`;
}

function lines(findings: readonly PlacedFinding[], { cwd }: JunitOptions): string {
  return findings
    .map(({ severity, rule, message, help, place, accepted }) => {
      const where =
        place === undefined ? "" : `${shownFrom(cwd, place.file)}:${place.line}:${place.column}: `;
      return `${where}${accepted ? "accepted" : severity}[${rule}]: ${message}${help === undefined ? "" : ` ${help}`}`;
    })
    .join("\n");
}

function brokenCase({ path, message }: { path: string; message: string }, { cwd }: JunitOptions): string {
  const name = attribute(shownFrom(cwd, path));
  const error = `<error type="unreadable" message="${attribute(message)}"></error>`;
  return `  <testcase classname="files" name="${name}" time="0">\n    ${error}\n  </testcase>\n`;
}

function suite(
  name: string,
  folder: string,
  cases: readonly string[],
  { failures, errors }: { readonly failures: number; readonly errors: number },
): string {
  const counts = `tests="${cases.length}" failures="${failures}" errors="${errors}" skipped="0" time="0"`;
  return ` <testsuite name="${attribute(name)}" package="${attribute(folder)}" ${counts}>\n${cases.join("")} </testsuite>\n`;
}

function attribute(text: string): string {
  return escaped(text).replaceAll("\n", "&#10;");
}
