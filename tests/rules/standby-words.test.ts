/** In which state a hop is told to be: an end says diversity or second antenna only where its unit hangs on one. */
import { expect, test } from "vitest";
import type { Hop, HopEnd } from "../../shared/design/design.js";
import type { StandbyResult } from "../../shared/evaluate/account/level-result.js";
import { standbyWords } from "../../shared/rules/standby-words.js";
import { ANTENNA, end, KELD, makeHop, TARN } from "../evaluate/builders.js";

type Weakest = NonNullable<StandbyResult["weakest"]>;

const hybrid: Partial<HopEnd> = { coupler: { name: "H", kind: "hybrid", mainLossDb: 3.6 } };
const diverse: Partial<HopEnd> = { diversityAntenna: ANTENNA, diversityHeightM: 30 };

function words(name: string, keld: Partial<HopEnd>, tarn: Partial<HopEnd>, state: Weakest["state"]): string {
  const ends: Hop["ends"] = [end(KELD, "high", keld), end(TARN, "low", tarn)];
  const weakest = { state, from: "KELD", to: "TARN" } as Weakest;
  return standbyWords(makeHop({ arrangement: { name }, ends }), weakest);
}

test.each<[Partial<HopEnd>, Partial<HopEnd>, Weakest["state"], string]>([
  [diverse, diverse, "both on standby", "with both ends on their diversity antennas"],
  [
    diverse,
    hybrid,
    "both on standby",
    "with the sender on the diversity antenna and the receiver on standby",
  ],
  [
    hybrid,
    diverse,
    "both on standby",
    "with the sender on standby and the receiver on the diversity antenna",
  ],
  [diverse, hybrid, "receiver on standby", "with the receiver on standby"],
  [diverse, hybrid, "sender on standby", "with the sender on the diversity antenna"],
  [hybrid, hybrid, "both on standby", "with both ends on standby"],
])("%#", (keld, tarn, state, wanted) => {
  expect(words("1+1 space-diversity", keld, tarn, state)).toBe(wanted);
});
