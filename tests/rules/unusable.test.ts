/** What is stated and cannot be used is in no figure: nothing that it would take from is met, and one error tells it. */
import { describe, expect, test } from "vitest";
import { FILE, modelOf, withHop } from "../language/editor/fixing.js";
import { judge } from "../language/editor/judged.js";

const CATALOGUE = `feeder FLEX-18 { kind flexible; band 17.7 GHz to 19.7 GHz; loss 1.1 dB/m at 18.7 GHz }
`;

/** Verdicts of the hop, and all that is wrong: what the text tells, and errors among the findings. */
function judged(change: (hop: string) => string, before = "") {
  const model = modelOf(before + CATALOGUE + withHop(change));
  const { results, findings } = judge(model);
  const { result } = results("KELD-TARN")!;
  return {
    availability: result.availability?.verdict,
    committed: result.availability?.committed,
    clearance: result.clearance.map(({ verdict }) => verdict),
    text: model.problemsOf(FILE).flatMap(({ severity, rule }) => (severity === "error" ? rule : [])),
    errors: findings.filter(({ severity }) => severity === "error"),
    all: findings.map(({ rule }) => rule),
    others: findings.filter(({ severity }) => severity === "warning").map(({ rule }) => rule),
  };
}

const first = (lines: string) => (hop: string) => hop.replace("at 40 m", `at 40 m\n    ${lines}`);
const inHop = (lines: string) => (hop: string) => hop.replace("  radio R18", `  ${lines}\n  radio R18`);
const written = (was: string, is: string) => (hop: string) => hop.replace(was, is);
const both = (lines: string) => (hop: string) => hop.replaceAll("at 40 m", `at 40 m\n    ${lines}`);
const hot = (change: (hop: string) => string) => (hop: string) =>
  change(inHop("arrangement 1+1 hot-standby")(both("coupler H18-U direct")(hop)));

describe("nothing is met without what is stated, and the text alone tells it", () => {
  test.each<[string, (hop: string) => string]>([
    ["a coupler that is not there", first("coupler GONE direct")],
    ["a coupler that is needed and not there", hot(written("H18-U", "GONE"))],
    ["a feeder that is not there", first("feeder GONE length 3 m")],
    ["a feeder that is needed and not there", first("mounting separate\n    feeder GONE length 1 m")],
    ["a loss that cannot be read", first("extra-loss much")],
    ["a length in another dimension", first("feeder FLEX-18 length 3 GHz")],
    ["a power without a unit", first("power 20")],
    ["a radio that is not there", written("R18", "R19")],
    ["an antenna that is not there", written("DISH60-18", "DISH60-19")],
    ["a mode that the radio does not have", written("128QAM", "129QAM")],
    ["a mode of a width that it does not have", written("mode 55", "mode 56")],
    ["a channel that the plan does not have", written("MHz / 4", "MHz / 444")],
    ["a half that there is not", written("transmits high", "transmits hihg")],
    ["a polarization that there is not", written("polarization vertical", "polarization vertcal")],
    ["an arrangement that there is not", hot(written("hot-standby", "hot-stanby"))],
    [
      "a diversity antenna that is not there",
      (hop) =>
        inHop("arrangement 1+1 space-diversity")(both("diversity-antenna DISH60-18 at 30 m")(hop)).replace(
          "diversity-antenna DISH60-18",
          "diversity-antenna GONE",
        ),
    ],
    [
      "a second antenna that is not there",
      (hop) =>
        inHop("arrangement 1+1 hot-standby two-antennas")(
          both("second-antenna DISH60-18 at 38 m")(hop),
        ).replace("second-antenna DISH60-18", "second-antenna GONE"),
    ],
  ])("%s", (_case, change) => {
    const { availability, committed, text, errors, others } = judged(change);
    expect(availability).not.toBe("met");
    expect(committed).toBeUndefined();
    expect(text).toHaveLength(1);
    expect(errors.map(({ message }) => message)).toEqual([]);
    expect(others).toEqual([]);
  });

  test("an obstacle whose place cannot be read leaves clearance open", () => {
    const { clearance, text, errors } = judged(inHop('obstacle "crane" 12 m at 3 from KELD'));
    expect(clearance).not.toContain("met");
    expect(text).toHaveLength(1);
    expect(errors).toEqual([]);
  });

  test("from the defaults it is told there, and the hop is not judged", () => {
    const { text, errors } = judged(
      written("  polarization vertical\n", ""),
      "defaults hop {\n  polarization vertcal\n}\n",
    );
    expect(text).toHaveLength(1);
    expect(errors.map(({ message }) => message)).toEqual([
      "availability is not judged: polarization is stated and cannot be used",
    ]);
  });

  test("beside it, what else is missing is told", () => {
    const { text, errors } = judged((hop) => hop.replace("R18", "R19").replace(" at 40 m", ""));
    expect(text).toHaveLength(1);
    expect(errors.map(({ message }) => message)).toEqual([
      expect.stringMatching(/are not judged: antenna height at KELD not stated$/),
    ]);
  });

  test("an acceptance of what the text tells in its place is left alone", () => {
    const told = (change: (hop: string) => string) =>
      judged((hop) => hot(change)(inHop('accept coupler-missing "on its way"')(hop))).all;
    // Whether it is needed is not known before the name is mended.
    expect(told(written("H18-U", "GONE"))).not.toContain("acceptance-unused");
    expect(told((hop) => hop)).toContain("acceptance-unused");
  });

  test("what spoils no figure leaves them judged, and so does what is usable", () => {
    for (const lines of ["cable GONE length 40 m", "unit-sub-band X", "feeder FLEX-18 length 0.9 m"])
      expect(judged(first(lines)), lines).toMatchObject({ availability: "met", errors: [] });
  });
});
