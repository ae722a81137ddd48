/** The levels for line-up are those of the level diagram, way by way and mode by mode. */
import { describe, expect, test } from "vitest";
import { expectedLevels, levelWindowDb, USUAL_WINDOW_DB } from "../../shared/as-built/expected.js";
import { ARRANGEMENTS } from "../../shared/radio/arrangements.js";
import { measuredHop, measuredStandby } from "../../shared/rules/as-built/example-reading.js";
import { exampleHop } from "../../shared/rules/example-preamble.js";
import { evaluated } from "./support.js";

test("an unprotected hop has one level an end, that of its direction", () => {
  const { hop, result } = evaluated(measuredHop());
  expect(
    expectedLevels(hop, result).map(({ to, branch, sender, modes }) => [
      to,
      branch,
      sender,
      modes.at(-1)!.levelDbm,
    ]),
  ).toEqual(result.directions.map(({ to, receivedLevelDbm }) => [to, "main", "main", receivedLevelDbm]));
});

test("hot standby has four ways a direction, told by what their units are there for", () => {
  const { hop, result } = evaluated(measuredStandby());
  const towards = expectedLevels(hop, result).filter(({ to }) => to === "TARN");
  expect(towards.map(({ sender, branch }) => `${sender} ${branch}`)).toEqual([
    "main main",
    "main standby",
    "standby main",
    "standby standby",
  ]);
  // The coupler's arms lose 1.6 and 6.4 dB: worked by hand, 4.8 dB less over each standby arm.
  const [main, ...others] = towards.map(({ modes }) => modes.at(-1)!.levelDbm);
  for (const [at, lessDb] of [4.8, 4.8, 9.6].entries()) expect(main! - others[at]!).toBeCloseTo(lessDb, 9);
});

test("a mode of more power is as much stronger", () => {
  const { hop, result } = evaluated(
    exampleHop({
      hop: "polarization vertical\n  radio R18\n  modes 55 MHz QPSK to 128QAM\n  arrangement 1+0",
    }),
  );
  // 24 dBm against 20 dBm in the catalogue of the examples.
  for (const { modes } of expectedLevels(hop, result)) {
    expect(modes.map(({ modulation }) => modulation)).toEqual(["QPSK", "128QAM"]);
    expect(modes[0]!.levelDbm - modes[1]!.levelDbm).toBeCloseTo(4, 9);
  }
});

describe.each(ARRANGEMENTS.map(({ name }) => name))("%s", (arrangement) => {
  test("every way of the level diagram is expected, with a place of its own", () => {
    const end = (half: string) => `antenna DISH60-18 at 40 m\n    transmits ${half}`;
    const { hop, result } = evaluated(
      exampleHop({
        hop: `polarization vertical\n  radio R18\n  mode 55 MHz 128QAM\n  arrangement ${arrangement}`,
        keld: end("high"),
        tarn: end("low"),
      }),
    );
    const expected = expectedLevels(hop, result);
    expect(expected.map(({ modes }) => modes.at(-1)!.levelDbm)).toEqual(
      result.directions.flatMap(({ paths, receivedLevelDbm }) =>
        paths === undefined ? [receivedLevelDbm] : paths.map((path) => path.receivedLevelDbm),
      ),
    );
    const places = expected.map(({ to, carrier, branch, sender }) => `${to} ${carrier} ${branch} ${sender}`);
    expect(new Set(places).size).toBe(places.length);
  });
});

test("the window is the objective's, else the usual", () => {
  const { hop } = evaluated(measuredHop());
  expect(levelWindowDb(hop)).toBe(USUAL_WINDOW_DB);
  const own = evaluated(
    `objective tight { level-window 1.5 dB }\n\n${measuredHop().replace("objective trunk", "objective tight")}`,
  );
  expect(own.problems).toEqual([]);
  expect(levelWindowDb(own.hop)).toBe(1.5);
});
