/**
 * A module of a standard is read beside its paper: what it exports cites the paper and shows the equation that it
 * computes, and every constant of its code stands there too, so that neither changes without the other.
 */
import { globSync, readFileSync } from "node:fs";
import { dirname } from "node:path";
import ts from "typescript";
import { describe, expect, test } from "vitest";
import type { MethodReference } from "../../shared/propagation/method.js";

const SHARED = new URL("../../shared/", import.meta.url);

/** Exported functions that compute no equation of a paper, and why. */
const NO_EQUATION: Readonly<Record<string, string>> = {
  "availability/objectives.ts hopShare": "practice, in no Recommendation",
  "propagation/p1144.ts gridPosition": "where a point lies in a grid",
  "propagation/p837.ts rainZoneRateMmPerH": "read in a table",
  "propagation/p837.ts isRainZone": "a name of that table",
  "propagation/p838.ts coefficientValidity": "the stated range",
  "propagation/p452/path.ts pathRefusal": "what is no path",
  "propagation/p452/path.ts coastDistances": "read off the zones",
  "propagation/p530/diversity.ts improvementRemark": "what is said of a figure",
  "propagation/p530/fade-distribution.ts checkOccurrence": "the range that is used",
  "propagation/p530/rain.ts belowRange": "how an estimate is told",
  "propagation/p530/total.ts largerShare": "the greater of two bounds",
};

/** Exported functions that cite another paper than their module's, and why. */
const OTHER_PAPER: Readonly<Record<string, string>> = {
  "propagation/p453.ts effectiveEarthRadiusFactor": "read in what P.452 and P.1812 print of it",
};

/** The methods of each module of a standard: its own, or where it has none those of the others in its folder. */
const METHODS = await methodsOfModules();

describe.each([...METHODS])("%s", (file, methods) => {
  const text = readFileSync(new URL(file, SHARED), "utf8");
  const source = ts.createSourceFile(file, text, ts.ScriptTarget.Latest, true);
  const functions = source.statements.filter(ts.isFunctionDeclaration);
  const exported = functions.filter(({ modifiers }) =>
    modifiers?.some(({ kind }) => kind === ts.SyntaxKind.ExportKeyword),
  );

  test("what it exports shows its equation, or names the function that does", () => {
    if (showsEquation(headerOf(source))) return;
    const shown = functions.filter((each) => showsEquation(docstringOf(each)));
    const names = shown.map((each) => `\`${nameOf(each)}\``);
    const without = exported.filter(
      (each) => !shown.includes(each) && !names.some((name) => docstringOf(each).includes(name)),
    );
    expect(without.map(nameOf)).toEqual(excepted(NO_EQUATION, file));
  });

  test("what it exports cites the edition of its method and a place in it", () => {
    const papers = methods.filter(({ recommendation }) => recommendation.startsWith("ITU-"));
    const silent = exported
      .filter((each) => papers.length > 0 && !papers.some((method) => cites(docstringOf(each), method)))
      .map(nameOf)
      .filter((name) => !excepted(NO_EQUATION, file).includes(name));
    expect(silent).toEqual(excepted(OTHER_PAPER, file));
  });

  test("every constant in its functions stands in its comments", () => {
    const told = new Set((commentsOf(source).match(NUMBER) ?? []).map(Number));
    const isTold = (value: number) =>
      SCALES.some((scale) => told.has(Number((value / scale).toPrecision(12))));
    expect(functions.flatMap(constantsOf).filter((value) => !isTold(value))).toEqual([]);
  });
});

async function methodsOfModules(): Promise<Map<string, readonly MethodReference[]>> {
  const files = globSync("{propagation,availability}/**/*.ts", { cwd: SHARED })
    .filter((file) => !/(\.data|index)\.ts$/.test(file))
    .sort();
  const own = new Map<string, readonly MethodReference[]>();
  for (const file of files) {
    const exports: Record<string, unknown> = await import(new URL(file, SHARED).href);
    const names = Object.keys(exports).filter((name) => name.startsWith("METHOD"));
    own.set(
      file,
      names.map((name) => exports[name] as MethodReference),
    );
  }
  const ofFolder = (folder: string) =>
    files.filter((file) => dirname(file) === folder).flatMap((file) => own.get(file)!);
  const modules = new Map<string, readonly MethodReference[]>();
  for (const [file, methods] of own) {
    const inPaper = /\/p\d+$/.test(dirname(file));
    const all = methods.length === 0 && inPaper ? ofFolder(dirname(file)) : methods;
    if (all.length > 0) modules.set(file, all);
  }
  return modules;
}

function excepted(list: Readonly<Record<string, string>>, file: string): string[] {
  return Object.keys(list).flatMap((key) => (key.startsWith(`${file} `) ? [key.slice(file.length + 1)] : []));
}

/** A line of an indented block, or words in backticks, with an equals sign. */
function showsEquation(comment: string): boolean {
  return /^ *\* {5}.* :?= /m.test(comment) || /`[^`\n]+ = [^`\n]+`/.test(comment);
}

function cites(docstring: string, { recommendation, section }: MethodReference): boolean {
  const see = docstring.split("@see ")[1] ?? "";
  if (!new RegExp(`Rec\\. ${escaped(recommendation)}(?![\\w-])`).test(see)) return false;
  return section.split(", ").some((place) => isIn(see, place));
}

/** Whether what is cited lies in a section, or among the equations from one to another. */
function isIn(cited: string, place: string): boolean {
  if (/^\d/.test(place)) return new RegExp(`section ${escaped(place)}(?!\\d)`).test(cited);
  const equations = /^eq \((\d+)\) to \((\d+)\)$/.exec(place);
  if (equations === null) return cited.includes(place);
  const equation = Number(/eq \((\d+)\)/.exec(cited)?.[1]);
  return equation >= Number(equations[1]) && equation <= Number(equations[2]);
}

const escaped = (text: string) => text.replaceAll(".", "\\.");

const nameOf = ({ name }: ts.FunctionDeclaration) => name!.text;

/** A number that is no index of a symbol: 0.633 of `d^0.633`, not 0.01 of `R0.01`. */
const NUMBER = /(?<![\w.])\d+(?:\.\d+)?(?:e[+-]?\d+)?/g;

/** A comment may have km for m, MHz or GHz for Hz, percent for a share. */
const SCALES = [1, 1e3, 1e6, 1e9, 1e-2];

/** Of the numbers in a function those that are no counts, indices, powers of ten or turns. */
function constantsOf(node: ts.Node): number[] {
  if (!ts.isNumericLiteral(node)) {
    const inside: number[] = [];
    ts.forEachChild(node, (child) => {
      inside.push(...constantsOf(child));
    });
    return inside;
  }
  const value = Number(node.text);
  const isCount = Number.isInteger(value) && value <= 10;
  const isPowerOfTen = /^1e[+-]?\d+$/.test(value.toExponential());
  return isCount || isPowerOfTen || value === 180 || value === 360 ? [] : [value];
}

function docstringOf(node: ts.Node): string {
  const comments = ts.getJSDocCommentsAndTags(node).filter(ts.isJSDoc);
  return comments.map((comment) => comment.getText()).join("\n");
}

/** What stands before the first import. */
function headerOf(source: ts.SourceFile): string {
  const [first] = source.statements;
  return first !== undefined && ts.isImportDeclaration(first)
    ? source.text.slice(0, first.getStart(source, false))
    : "";
}

function commentsOf(source: ts.SourceFile): string {
  const { text } = source;
  const comments = new Map<number, string>();
  const visit = (node: ts.Node) => {
    const before = ts.getLeadingCommentRanges(text, node.pos) ?? [];
    const after = ts.getTrailingCommentRanges(text, node.end) ?? [];
    for (const { pos, end } of [...before, ...after]) comments.set(pos, text.slice(pos, end));
    for (const child of node.getChildren(source)) visit(child);
  };
  visit(source);
  return [...comments.values()].join("\n");
}
