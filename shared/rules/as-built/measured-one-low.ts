import { readingPlace } from "../../as-built/words.js";
import { apart, dbm, decibels } from "../../format/numbers.js";
import type { HopRule } from "../rule.js";
import { measuredHop } from "./example-reading.js";
import { aboutReading, held, readingAddress } from "./readings.js";

export const measuredOneLow: HopRule = {
  scope: "hop",
  id: "measured-one-low",
  severity: "warning",
  title: "Both directions and all branches are as promised",
  checks:
    "A measured level below the window around the promised one, while the other direction, or another branch of the same end, was measured within its window.",
  why: "Both directions pass the same antennas and the same ground, and all branches of an end share what is behind their coupler. Where one agrees, the fault lies in what they don't share: power and mode of the sender, a unit, its arm or its cable, an exchanged arm.",
  fix: "Of a direction look at the far end's power setting and at both units; of a branch at its arm of the coupler, its waveguide and its unit.",
  source: "common practice",
  needs: ["levels"],
  good: measuredHop("-41.6 dBm at TARN on 2026-05-02", "-40.9 dBm at KELD on 2026-05-02"),
  bad: measuredHop("-47.2 dBm at TARN on 2026-05-02", "-40.9 dBm at KELD on 2026-05-02"),
  check({ hop, result, report }) {
    const found = held({ hop, result });
    for (const one of found?.readings ?? []) {
      if (one.verdict !== "low" || one.agreeing === undefined) continue;
      const { measured, mode, expected, agreeing } = one;
      const [level, promised] = apart(dbm, measured.levelDbm, mode!.levelDbm);
      const other = found!.readings.find(({ index }) => index === agreeing.index)!;
      const shared =
        agreeing.of === "direction"
          ? `the other direction, read at ${readingPlace(other.measured)},`
          : readingPlace(other.measured);
      report({
        at: readingAddress(hop, one.index),
        about: aboutReading(one),
        message: `${readingPlace(measured)} was read at ${level}, ${decibels(one.lessDb!)} below the promised ${promised}, while ${shared} agrees`,
        help:
          agreeing.of === "direction"
            ? `look at the power that ${expected!.from} sends, and at both units: antennas and path are as they should be`
            : "look at the branch: its arm of the coupler, its waveguide and its unit",
        related: [{ at: readingAddress(hop, other.index), message: "the reading that agrees" }],
      });
    }
  },
};
