/** A channel whose number is still to be chosen: a normal unfinished state, shown for the worst channel of the plan. */
import { describe, expect, test } from "vitest";
import { evaluateHop } from "../../shared/evaluate/hop.js";
import { exampleHop } from "../../shared/rules/example-preamble.js";
import { designOf } from "../equipment/designs.js";
import { exampleGround, judgeExample } from "../rules/example-design.js";

const open = (text = exampleHop()) => text.replace("channel P18 / 55 MHz / 4", "channel P18 / 55 MHz");
const hopOf = (text: string) => designOf(text).hops.get("KELD-TARN")!;
const resultOf = (text: string) => {
  const hop = hopOf(text);
  return evaluateHop(hop, exampleGround(hop));
};
const told = (text: string) => judgeExample(text).findings.map(({ rule, message }) => `${rule}: ${message}`);

test("it counts as the highest channel of the plan, and its zone as the lowest", () => {
  // P18: 17 channels of 55 MHz, 18 700 - 1000 + 55 n and 18 700 + 10 + 55 n MHz.
  const { channel, openChannel, ends } = hopOf(open());
  expect(channel).toBeUndefined();
  expect(openChannel).toEqual({ plan: "P18", bandwidthHz: 55e6, number: 17, count: 17, lowestHz: 17.755e9 });
  expect(ends.map((end) => end.transmitFrequencyHz)).toEqual([19.645e9, 18.635e9]);
  const [shown, highest, lowest] = [
    open(),
    exampleHop().replace("/ 4", "/ 17"),
    exampleHop().replace("/ 4", "/ 1"),
  ].map(resultOf);
  const levels = (result: typeof shown) => result!.directions.map(({ receivedLevelDbm }) => receivedLevelDbm);
  expect(levels(shown)).toEqual(levels(highest));
  for (const [index, level] of levels(shown).entries()) expect(level).toBeLessThan(levels(lowest)[index]!);
  const fractions = (result: typeof shown) => result!.clearance.map(({ fraction }) => fraction);
  expect(fractions(shown)).toEqual(fractions(lowest));
});

test("no channel of the plan makes less of it", () => {
  const worst = resultOf(open()).directions.map(({ receivedLevelDbm }) => receivedLevelDbm);
  const zone = resultOf(open()).clearance[0]!.fraction;
  for (let number = 1; number <= 17; number++) {
    const { directions, clearance } = resultOf(exampleHop().replace("/ 4", `/ ${number}`));
    for (const [index, { receivedLevelDbm }] of directions.entries())
      expect(receivedLevelDbm).toBeGreaterThanOrEqual(worst[index]! - 1e-9);
    expect(clearance[0]!.fraction).toBeGreaterThanOrEqual(zone - 1e-9);
  }
});

describe("it is told once", () => {
  test("without an objective as what the hop still lacks", () => {
    const findings = told(open().replace("  objective trunk\n", ""));
    expect(findings).toContain(
      "hop-incomplete: the channel number is not stated (figures are those of channel 17, the worst of 17)",
    );
    expect(judgeExample(open()).problems).toEqual([]);
  });

  test("with an objective as what its verdicts wait for", () => {
    const [found, ...others] = told(open()).filter((one) => /channel number/.test(one));
    expect(others).toEqual([]);
    expect(found).toMatch(/^not-judged: .*availability.* not judged: the channel number is not stated/);
  });

  test("figures say whose they are", () => {
    expect(resultOf(open()).notes).toContainEqual({
      code: "channel-open",
      plan: "P18",
      number: 17,
      count: 17,
    });
  });
});

describe("what is missed with the worst channel alone is open, what is missed with the best is missed", () => {
  const margins = (text: string) => resultOf(text).directions.map(({ modes }) => modes[0]!.fadeMarginDb);
  const worstDb = Math.min(...margins(open()));
  const bestDb = Math.min(...margins(exampleHop().replace("/ 4", "/ 1")));
  const asking = (facts: string, text: string) =>
    `objective deep {\n  ${facts}\n}\n\n${text.replace("objective trunk", "objective deep")}`;
  const rulesFor = (facts: string, text = open()) =>
    judgeExample(asking(facts, text)).findings.flatMap(({ rule, message }) =>
      /^(fade-margin|clearance|availability|level-below-threshold)$/.test(rule) ||
      (rule === "not-judged" && /channel number/.test(message))
        ? [rule]
        : [],
    );

  test("fade margin", () => {
    expect(bestDb - worstDb).toBeGreaterThan(0.2);
    const margin = (db: number) => `margin ${db.toFixed(3)} dB`;
    // Met with the worst too: it stays open all the same until the channel is stated.
    expect(rulesFor(margin(worstDb - 0.01))).toEqual(["not-judged"]);
    expect(rulesFor(margin((worstDb + bestDb) / 2))).toEqual(["not-judged"]);
    expect(rulesFor(margin(bestDb + 0.01))).toEqual(["fade-margin"]);
    // With the channel stated each has its own verdict.
    expect(rulesFor(margin((worstDb + bestDb) / 2), exampleHop().replace("/ 4", "/ 17"))).toEqual([
      "fade-margin",
    ]);
  });

  test("clearance, of which the highest channel has most", () => {
    const fraction = (text: string) => resultOf(text).clearance[0]!.fraction;
    const low = exampleHop({
      keld: "antenna DISH60-18 at 25 m\n    transmits high",
      tarn: "antenna DISH60-18 at 25 m\n    transmits low",
    });
    const [worst, best] = [fraction(open(low)), fraction(low.replace("/ 4", "/ 17"))];
    const asked = (f: number) => `clearance ${f.toFixed(4)} F1 at k 1.33`;
    expect(best).toBeGreaterThan(worst);
    expect(rulesFor(asked((worst + best) / 2), open(low))).toEqual(["not-judged"]);
    expect(rulesFor(asked(best + 0.01), open(low))).toEqual(["clearance"]);
  });
});

test("a plan or width that there is not is told as for any channel", () => {
  const { problems } = judgeExample(open().replace("P18 / 55 MHz", "P18 / 13.75 MHz"));
  expect(problems).toHaveLength(1);
  expect(problems[0]).toMatch(/13\.75 MHz/);
  expect(judgeExample(open().replace("P18 / 55", "P19 / 55")).problems[0]).toMatch(/P19/);
});

test("it is on no channel yet: nobody hears it", () => {
  const second = exampleHop().replaceAll("KELD", "MOSS");
  const text = `site MOSS {\n  at 47.49 -30.498\n  structure mast 60 m\n}\n\n${open(exampleHop())}\n\n${second}`;
  expect(told(text).filter((one) => one.startsWith("interference-degradation"))).toEqual([]);
});
