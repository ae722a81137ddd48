import { controlRangeDb } from "../../as-built/expected.js";
import { readingPlace } from "../../as-built/words.js";
import { dbm, decibels } from "../../format/numbers.js";
import type { HopRule } from "../rule.js";
import { measuredHop } from "./example-reading.js";
import { aboutReading, held, readingAddress } from "./readings.js";

export const measuredPowerControl: HopRule = {
  scope: "hop",
  id: "measured-power-control",
  severity: "warning",
  title: "Levels are measured at full power",
  checks:
    "Whether a level was measured with `power-control active`, or, on a hop with power control, without saying that it was off.",
  why: "Power control lets the far end down as far as it pleases while nothing fades. The level then says nothing of antennas, branching and path, and a hop that is 10 dB low looks as it should.",
  fix: "Switch power control off at the far end, read again, and switch it on.",
  source: "common practice",
  needs: ["levels"],
  good: measuredHop("-41.6 dBm at TARN power-control off on 2026-05-02"),
  bad: measuredHop("-41.6 dBm at TARN power-control active on 2026-05-02"),
  check(context) {
    for (const one of held(context)?.readings ?? []) {
      const { measured, expected, mode, verdict } = one;
      if (expected === undefined || mode === undefined || verdict === "replaced") continue;
      const rangeDb = controlRangeDb(context.hop, expected.from);
      const isUnsaid = measured.powerControl === undefined && rangeDb !== undefined;
      if (verdict !== "power control" && !isUnsaid) continue;
      const down = rangeDb === undefined ? "" : `, which may take off ${decibels(rangeDb)},`;
      const how =
        verdict === "power control"
          ? `with power control on${down} and is held against nothing`
          : `without saying that power control${down} was off`;
      context.report({
        at: readingAddress(context.hop, one.index),
        about: aboutReading(one),
        message: `${readingPlace(measured)} was read at ${dbm(measured.levelDbm)} ${how}`,
        help: `read again with power control off at ${expected.from}: ${dbm(mode.levelDbm)} is promised`,
        ...(isUnsaid && { severity: "info" as const }),
      });
    }
  },
};
