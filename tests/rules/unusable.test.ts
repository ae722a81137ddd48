/** What is stated and cannot be used is in no figure: nothing that it would take from is met. */
import { describe, expect, test } from "vitest";
import { modelOf, withHop } from "../language/editor/fixing.js";
import { judge } from "../language/editor/judged.js";

const CATALOGUE = `feeder FLEX-18 { kind flexible; band 17.7 GHz to 19.7 GHz; loss 1.1 dB/m at 18.7 GHz }
`;

/** Verdicts of the hop, and what its findings say is not judged. */
function judged(change: (hop: string) => string) {
  const model = modelOf(CATALOGUE + withHop(change));
  const { results, findings } = judge(model);
  const { result } = results("KELD-TARN")!;
  return {
    availability: result.availability?.verdict,
    committed: result.availability?.committed,
    clearance: result.clearance.map(({ verdict }) => verdict),
    open: findings.flatMap(({ notJudged = [] }) => notJudged),
    messages: findings.flatMap(({ rule, message }) => (rule === "not-judged" ? message : [])),
  };
}

const first = (lines: string) => (hop: string) => hop.replace("at 40 m", `at 40 m\n    ${lines}`);

describe("nothing is met without what is stated", () => {
  test.each([
    ["a coupler that is not there", "coupler GONE direct", "coupler at KELD"],
    ["a feeder that is not there", "feeder GONE length 3 m", "feeder at KELD"],
    ["a loss that cannot be read", "extra-loss much", "extra-loss at KELD"],
    ["a length in another dimension", "feeder FLEX-18 length 3 GHz", "feeder at KELD"],
    ["a power without a unit", "power 20", "power at KELD"],
  ])("%s", (_case, lines, named) => {
    const { availability, committed, open, messages } = judged(first(lines));
    expect(availability).not.toBe("met");
    expect(committed).toBeUndefined();
    expect(open).toEqual(expect.arrayContaining(["availability", "fade-margin"]));
    expect(messages.join("\n")).toContain(`${named} is stated and cannot be used`);
  });

  test("an obstacle whose place cannot be read leaves clearance open", () => {
    const { clearance, open } = judged((hop) =>
      hop.replace("radio R18", 'obstacle "crane" 12 m at 3 from KELD\n  radio R18'),
    );
    expect(clearance).not.toContain("met");
    expect(open).toContain("clearance");
  });

  test("what spoils no figure leaves them judged, and so does what is usable", () => {
    for (const lines of ["cable GONE length 40 m", "unit-sub-band X", "feeder FLEX-18 length 0.9 m"])
      expect(judged(first(lines)), lines).toMatchObject({ availability: "met", open: [] });
  });
});
