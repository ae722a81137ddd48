/** What an editor shows of demands: names of sites and hops in one list, completion, hover, rename, outline, colours, fixes. */
import { describe, expect, test } from "vitest";
import { completionAt } from "../../../language/editor/completion.js";
import { foldingRanges } from "../../../language/editor/folding.js";
import { hoverAt } from "../../../language/editor/hover.js";
import { definitionAt, referencesAt } from "../../../language/editor/navigation.js";
import { declaredIn } from "../../../language/editor/occurrences.js";
import { renameAt } from "../../../language/editor/rename.js";
import { semanticTokens } from "../../../language/editor/semantic-tokens.js";
import { documentSymbols, signOf } from "../../../language/editor/symbols.js";
import { applyEdits } from "../../../language/editor/text-range.js";
import { fixture } from "../../support/fixture.js";

const NETWORK = `site KELD "Keld quarry" { handover }
site TARN {}
site MOSS {}
hop KELD-TARN { KELD {}; TARN {} }
`;

function demand(lines: string) {
  return fixture(`${NETWORK}demand SCHOOL "School" {\n${lines}\n}\n`);
}

function labels(lines: string): string[] {
  const { model, file, offset } = demand(lines);
  return completionAt(model, file, offset).items.map(({ label }) => label);
}

describe("completion", () => {
  test("of its facts", () => {
    const found = labels("  from KELD to TARN\n  $0");
    expect(found).toEqual(expect.arrayContaining(["committed", "E1", "STM-1", "route", "accept", "state"]));
    expect(found).not.toContain("from");
  });

  test("of its ends: sites, and the word behind `to`, without the site where it begins", () => {
    expect(labels("  from $0")).toEqual(["KELD", "TARN", "MOSS"]);
    expect(labels("  from KELD to $0")).toEqual(expect.arrayContaining(["TARN", "MOSS", "handover"]));
    expect(labels("  from KELD to $0")).not.toContain("KELD");
  });

  test.each(["  route via $0", "  route via M$0", "  second-route disjoint hop via $0"])(
    "of a list begun: sites and hops: %s",
    (line) => {
      expect(labels(line)).toContain("MOSS");
      if (!line.includes("M$0")) expect(labels(line)).toContain("KELD-TARN");
    },
  );

  test.each([
    "  route via TARN, $0",
    "  route via TARN,$0",
    "  route via TARN , M$0",
    "  route via TARN,M$0",
  ])("of a list that goes on: what is not in it yet: %s", (line) => {
    const found = labels(line);
    expect(found).toContain("MOSS");
    expect(found).not.toContain("TARN");
  });

  test("replaces the name begun behind a comma, and no more", () => {
    const { model, file, offset } = demand("  route via TARN,MO$0");
    const item = completionAt(model, file, offset).items.find(({ label }) => label === "MOSS")!;
    expect(item.replace).toEqual({ start: offset - 2, end: offset });
  });

  test("of units behind a number", () => {
    expect(labels("  latency 5 $0")).toEqual(["ms", "s", "us"]);
    expect(labels("  frame 512 $0")).toEqual(["B"]);
  });
});

describe("names", () => {
  const LINES = "  from KE$0LD to TARN\n  route via MOSS,KELD-TARN, KELD";

  test("a rename of a site reaches its ends and lists, and hops that carry its name", () => {
    const { model, file, offset } = demand(LINES);
    const answer = renameAt(model, file, offset, "FELL");
    if ("problem" in answer) throw new Error(answer.problem);
    const text = applyEdits(model.file(file)!.text, [...answer.edits, ...answer.along]);
    expect(text).toContain("from FELL to TARN\n  route via MOSS,FELL-TARN, FELL");
    expect(text).toContain("site FELL ");
    expect(text).toContain("hop FELL-TARN { FELL {}");
  });

  test("a rename of a hop from a list reaches the hop", () => {
    const { model, file, offset } = demand(LINES.replace("$0", "").replace("KELD-TARN", "KELD-T$0ARN"));
    const answer = renameAt(model, file, offset, "WEST");
    if ("problem" in answer) throw new Error(answer.problem);
    const text = applyEdits(model.file(file)!.text, answer.edits);
    expect(text).toContain("hop WEST {");
    expect(text).toContain("via MOSS,WEST, KELD");
  });

  test("no name that would be parted, or taken for the word", () => {
    const { model, file, offset } = demand("  from KELD to TA$0RN\n  route via TARN");
    expect(renameAt(model, file, offset, "A,B")).toHaveProperty("problem");
    expect(renameAt(model, file, offset, "handover")).toHaveProperty("problem");
  });

  test("uses and declaration of a hop named in a list; of the demand itself", () => {
    const { model, file, offset } = demand("  route via KELD-$0TARN, MOSS");
    const text = model.file(file)!.text;
    const at = definitionAt(model, file, offset).map(({ start, end }) => text.slice(start - 4, end));
    expect(at).toEqual(["hop KELD-TARN"]);
    expect(referencesAt(model, file, offset, { includeDeclaration: true })).toHaveLength(2);
    expect(renameAt(model, file, text.indexOf("SCHOOL") + 1, "HALL")).toMatchObject({
      edits: [{ newText: "HALL" }],
    });
  });
});

test("hover tells what it is, what it takes over, and what a name in a list stands for", () => {
  const at = (lines: string, more = "") => {
    const { model, file, offset } = fixture(`${NETWORK}${more}demand SCHOOL "School" {\n${lines}\n}\n`);
    return hoverAt(model, file, offset, () => undefined)!.markdown;
  };
  const { model, file } = demand("  from KELD to handover\n  committed 20 Mbit/s\n  E1 2\n  latency 5 ms");
  const text = model.file(file)!.text;
  const told = hoverAt(model, file, text.indexOf("SCHOOL"), () => undefined)!.markdown;
  expect(told).toContain("**SCHOOL** (demand) School");
  expect(told).toContain("- from KELD to the first handover\n- 20 Mbit/s committed, 2 E1\n- latency 5 ms");
  expect(at("  route via KELD-T$0ARN")).toContain("**KELD-TARN** (hop)");
  expect(at("  from KELD to TA$0RN")).toContain("**TARN** (site)");
  expect(at("  from KELD to hand$0over")).toContain("reaches first");
  expect(at("  lat$0ency 5 ms")).toContain("Most latency that it may have.");
});

test("outline, folding and colours", () => {
  const { model, file } = demand("  from KELD to handover\n  route via MOSS, KELD-TARN");
  const source = model.file(file)!;
  const symbol = documentSymbols(source).at(-1)!;
  expect(symbol).toMatchObject({ name: "SCHOOL", detail: "demand, School" });
  expect(signOf(symbol.kind)).toBe("Event");
  expect(foldingRanges(source).map(({ start }) => source.text.slice(0, start).split("\n").length)).toContain(
    5,
  );
  const colours = semanticTokens(source, undefined, declaredIn(model))
    .filter(({ start }) => start > source.text.indexOf("demand"))
    .map(({ start, length, type }) => `${source.text.slice(start, start + length)} ${type}`);
  expect(colours).toEqual([
    "SCHOOL variable",
    '"School" string',
    "from property",
    "KELD namespace",
    "to keyword",
    "handover enumMember",
    "route property",
    "via keyword",
    "MOSS namespace",
    "KELD-TARN function",
  ]);
});
