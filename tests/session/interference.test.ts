/** Interference in a session: live, once at a time, and never in the way of the hops by themselves. */
import { describe, expect, test } from "vitest";
import { DesignModel } from "../../language/model/design-model.js";
import { readSource } from "../../language/model/source-file.js";
import { DesignSession } from "../../server/session/design-session.js";
import { InterferenceNetwork } from "../../shared/interference/network.js";
import { fromHub } from "../../shared/rules/example-interference.js";
import { EXAMPLE_PREAMBLE } from "../../shared/rules/example-preamble.js";

const PATH = "/d/network.hop";
const GROUND = EXAMPLE_PREAMBLE.replaceAll("structure mast 60 m", "ground 200 m\n  structure mast 60 m");
const text = (channel: number) =>
  `${GROUND}\n${fromHub({ channel }).replaceAll("structure mast", "ground 200 m\n  structure mast")}`;

function sessionOf(channel: number) {
  const model = new DesignModel("/d");
  const set = (of: number) => model.setFile(readSource(PATH, text(of)));
  set(channel);
  return { session: new DesignSession(model, { today: "2026-06-01" }), set };
}

function degradations(session: DesignSession): (number | undefined)[] {
  return ["KELD-TARN", "MOSS-TARN"].flatMap((hop) =>
    session.result(hop)!.result.directions.map(({ modes }) => modes[0]!.computedDegradationDb),
  );
}

const rules = (session: DesignSession) => {
  session.updateNetwork();
  return session.networkFindings().map(({ rule }) => rule);
};

test("an edit of one hop's channel changes the other, which nobody touched, and back again", async () => {
  const { session, set } = sessionOf(8);
  await session.update();
  expect(degradations(session)).toEqual([undefined, undefined, undefined, undefined]);
  const before = session.result("KELD-TARN")!.result;
  expect(rules(session)).not.toContain("interference-degradation");
  set(4);
  const changed = await session.update();
  expect(changed).toEqual(new Set(["KELD-TARN", "MOSS-TARN"]));
  expect(degradations(session).filter((db) => db !== undefined && db > 5).length).toBeGreaterThanOrEqual(2);
  expect(rules(session)).toContain("interference-degradation");
  set(8);
  await session.update();
  expect(session.result("KELD-TARN")!.result).toEqual(before);
  expect(rules(session)).not.toContain("interference-degradation");
});

test("margins are lower by what is computed, and a stated degradation is the least", async () => {
  const { session } = sessionOf(4);
  await session.update();
  for (const hop of ["KELD-TARN", "MOSS-TARN"])
    for (const { modes } of session.result(hop)!.result.directions)
      for (const {
        receivedLevelDbm,
        thresholdDbm,
        fadeMarginDb,
        degradationDb,
        computedDegradationDb,
      } of modes) {
        expect(fadeMarginDb).toBeCloseTo(receivedLevelDbm - thresholdDbm - degradationDb!, 9);
        expect(degradationDb).toBe(computedDegradationDb ?? 0);
      }
});

test("two runs at once come to what one does", async () => {
  const { session, set } = sessionOf(8);
  await session.update();
  set(4);
  await Promise.all([session.update(), session.update()]);
  const fresh = sessionOf(4).session;
  await fresh.update();
  expect(degradations(session)).toEqual(degradations(fresh));
});

describe("a fault of the computation", () => {
  test("leaves every hop judged without it, and is told", async () => {
    const { session, set } = sessionOf(4);
    await session.update();
    expect(degradations(session).some((db) => db !== undefined)).toBe(true);
    const update = InterferenceNetwork.prototype.update;
    InterferenceNetwork.prototype.update = () => {
      throw new Error("made to fail");
    };
    try {
      set(5);
      await session.update();
    } finally {
      InterferenceNetwork.prototype.update = update;
    }
    expect(degradations(session)).toEqual([undefined, undefined, undefined, undefined]);
    session.updateNetwork();
    expect(session.networkFindings().map(({ message }) => message)).toContain(
      "interference could not be computed: made to fail",
    );
    set(4);
    await session.update();
    expect(degradations(session).some((db) => db !== undefined)).toBe(true);
  });
});

test("the hops in sight first and the network judged on them: what the others do comes with the rest", async () => {
  const { session, set } = sessionOf(8);
  await session.update();
  session.updateNetwork();
  set(4);
  // As an editor does it: the file in front, what hops share, then all.
  await session.update({}, new Set(["KELD-TARN", "MOSS-TARN"]));
  session.updateNetwork();
  await session.update();
  expect(degradations(session).some((db) => db !== undefined && db > 5)).toBe(true);
  expect(session.networkWaits()).toBe(true);
  expect(rules(session)).toContain("interference-degradation");
});

test("a run that has become pointless gives up, and the next one comes to the same", async () => {
  const { session, set } = sessionOf(8);
  await session.update();
  set(4);
  let asked = 0;
  await session.update({ isStale: () => ++asked > 4, pause: () => undefined });
  await session.update();
  const fresh = sessionOf(4).session;
  await fresh.update();
  expect(degradations(session)).toEqual(degradations(fresh));
});
