/** Findings rest on codes: with every word of remarks, lacks, inputs and methods exchanged they are the same. */
import { afterAll, describe, expect, test, vi } from "vitest";
import { message, shown } from "../../shared/words/message.js";

interface Found {
  readonly rule: string;
  readonly severity: string;
  readonly at: string;
  readonly about?: string;
}

/** What a finding is, without what it says. */
const withoutWords = ({ rule, severity, at, about }: Found) => `${severity} ${rule} ${at} (${about ?? ""})`;

/** The program anew, with its words or with one word in place of all. */
async function world(words: boolean) {
  vi.resetModules();
  if (words) vi.doUnmock("../../shared/words/message.js");
  else
    vi.doMock("../../shared/words/message.js", () => ({
      message: () => "words",
      shown: (one: unknown) => one,
      asClause: (one: unknown) => one,
    }));
  const { RULES } = await import("../../shared/rules/index.js");
  const { judgeExample } = await import("./example-design.js");
  const { makeHop, levelGround } = await import("../evaluate/builders.js");
  const { evaluateHop } = await import("../../shared/evaluate/hop.js");
  const { explainHop } = await import("../../shared/report/explain.js");
  return { RULES, judgeExample, makeHop, levelGround, evaluateHop, explainHop };
}

// Where several files are run in one process the next one has its words again.
afterAll(() => {
  vi.doUnmock("../../shared/words/message.js");
  vi.resetModules();
});

describe("with one word in place of all", async () => {
  const told = await world(true);
  const untold = await world(false);

  test("no rule finds anything else, or at another place", () => {
    let found = 0;
    for (const { id, good, bad } of told.RULES.values())
      for (const example of [good, bad]) {
        const [ours, theirs] = [told, untold].map(({ judgeExample }) => judgeExample(example).findings);
        expect(theirs!.map(withoutWords).toSorted(), id).toEqual(ours!.map(withoutWords).toSorted());
        found += ours!.length;
      }
    expect(found).toBeGreaterThan(told.RULES.size);
  });

  test("the words are gone, so that the comparison means something", () => {
    const { bad } = told.RULES.get("not-counted")!;
    const said = (from: typeof told) =>
      from.judgeExample(bad).findings.find(({ rule }) => rule === "not-counted")!.message;
    expect(said(told)).toContain("selective fading is not counted");
    expect(said(untold)).toBe("words");
  });

  test("a message has nothing that could be looked for", () => {
    const note = message("Gases are not counted.");
    // @ts-expect-error No pattern takes it.
    expect(/Gases/.test(note)).toBe(true);
    // @ts-expect-error Nor has it what a string has.
    expect(note.startsWith("Gases")).toBe(true);
    expect(shown(note)).toBe("Gases are not counted.");
  });

  test("each figure is explained with the same methods, inputs and remarks", () => {
    const chains = ({ makeHop, levelGround, evaluateHop, explainHop }: typeof told) => {
      const hop = makeHop();
      return explainHop(hop, evaluateHop(hop, levelGround(9000)))
        .filter(({ methods, inputs, notes }) => methods.length + inputs.length + notes.length > 0)
        .map(({ methods, inputs, notes }) => ({ methods, inputs, notes }));
    };
    expect(chains(told).length).toBeGreaterThan(5);
    expect(chains(untold)).toEqual(chains(told));
  });
});
