/** Every fix that is offered anywhere removes what it is offered for, and brings no error but such as that hid. */
import { describe, expect, test } from "vitest";
import { TEXT_RULES } from "../../language/check/text-rules.js";
import { IN_TEXT } from "../../language/editor/fixes/index.js";
import { TEXT_PROPOSALS } from "../../language/editor/fixes/text-proposals.js";
import { EXAMPLE_PREAMBLE } from "../../shared/rules/example-preamble.js";
import { RULES } from "../../shared/rules/index.js";
import { type Applied, fixesOfRule, fixesOfText } from "./applied.js";
import { RULE_CASES } from "./rule-cases.js";
import { TEXT_CASES } from "./text-cases.js";

const MINUTES = 5 * 60_000;

/** Errors that a finding hides: by its rule, what may be told once it is gone. */
const HIDES: Readonly<Record<string, readonly string[]>> = {
  // With the loss that it was counted without.
  "coupler-wrong-kind": ["availability"],
  "feeder-too-short": ["fade-margin"],
  // Without any level there is no margin to judge.
  "level-below-threshold": ["availability", "fade-margin"],
};

/** The same of a finding that is accepted: what it is the cause of is told from then on. */
const CAUSES: Readonly<Record<string, readonly string[]>> = {
  "survey-unusable": ["not-judged"],
  clearance: ["availability", "fade-margin"],
  // Without what cannot be built or counted there is no verdict.
  "obstacle-off-path": ["not-judged"],
  "both-ends-same-half": ["duplex-mismatch", "not-judged"],
  "end-arrangement": ["not-judged"],
  "coupler-wrong-kind": ["not-judged"],
  "coupler-missing": ["not-judged"],
  "antenna-ports-short": ["not-judged"],
  "antenna-out-of-band": ["not-judged"],
  "coupler-out-of-band": ["not-judged"],
  "feeder-out-of-band": ["not-judged"],
  "power-above-mode": ["not-judged"],
  "frequency-outside-tuning": [
    "half-outside-radio",
    "frequency-off-channel",
    "antenna-out-of-band",
    "not-judged",
    "availability",
  ],
  "frequency-off-channel": ["duplex-mismatch"],
  "level-below-threshold": ["availability", "fade-margin"],
};

/** A text that cannot be read, or names what is not there, hides what is wrong with the hop. */
const TEXT_HIDES: Readonly<Record<string, readonly string[]>> = {
  // What arrangements ask for is another matter than which is meant.
  "unknown-choice": ["coupler-missing", "antenna-ports-short"],
  unfinished: ["both-ends-same-half"],
  // What is declared has nothing in it yet.
  "unknown-name": ["unknown-mode", "not-judged", "objective-missing"],
};

function faultsOf(applied: readonly Applied[], allowed: (one: Applied) => readonly string[]): string[] {
  return applied.flatMap((one) => [
    ...(one.after < one.before ? [] : [`${one.fix.title}: ${one.rule} stays`]),
    ...one.came
      .filter(({ rule }) => !allowed(one).includes(rule))
      .map(({ rule, message }) => `${one.fix.title}: ${rule} comes: ${message}`),
  ]);
}

const isAcceptance = ({ fix }: Applied) => fix.title.startsWith("Accept ");

describe.each([...RULES.values()])("$id", (rule) => {
  test(
    "its fixes remove it",
    async () => {
      const texts = [`${EXAMPLE_PREAMBLE}\n${rule.bad}`, ...(RULE_CASES[rule.id] ?? [])];
      const applied = (await Promise.all(texts.map((text) => fixesOfRule(text, rule.id)))).flat();
      const allowed = (one: Applied) => (isAcceptance(one) ? CAUSES : HIDES)[rule.id] ?? [];
      expect(faultsOf(applied, allowed)).toEqual([]);
      // What is offered, in its order; written anew with `-u` where a change is meant.
      expect(`\n${applied.map(({ fix }) => fix.title).join("\n")}\n`).toMatchSnapshot();
      const mending = applied.filter((one) => !isAcceptance(one));
      if (IN_TEXT[rule.id] ?? rule.fixes) expect(mending.length).toBeGreaterThan(0);
      else expect(mending).toEqual([]);
    },
    MINUTES,
  );
});

describe.each(Object.keys(TEXT_RULES))("%s", (id) => {
  const cases = TEXT_CASES[id as keyof typeof TEXT_CASES] ?? [];

  test.each(cases.map((text, index) => [index, text] as const))("case %i: its fixes remove it", (_, text) => {
    const applied = fixesOfText(text, id);
    expect(applied.length).toBeGreaterThan(0);
    expect(faultsOf(applied, () => TEXT_HIDES[id] ?? [])).toEqual([]);
  });

  test("has cases where it has fixes", () => {
    if (id in TEXT_PROPOSALS) expect(cases.length).toBeGreaterThan(0);
  });
});

/** Fixes of the text come with the problems that reading finds: none may be without a case here. */
test("every text rule that offers a fix in any case of another has cases of its own", () => {
  const texts = [...Object.values(TEXT_CASES).flat(), ...Object.values(RULE_CASES).flat()];
  const offering = new Set(
    texts.flatMap((text) => Object.keys(TEXT_RULES).filter((id) => fixesOfText(text, id).length > 0)),
  );
  expect([...offering].filter((id) => !(id in TEXT_CASES))).toEqual([]);
});
