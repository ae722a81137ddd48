import { placeWords } from "../../as-built/words.js";
import { address } from "../../design/address.js";
import { listed } from "../../words/lists.js";
import type { HopRule } from "../rule.js";
import { measuredStandby } from "./example-reading.js";
import { held } from "./readings.js";

export const measuredMissing: HopRule = {
  scope: "hop",
  id: "measured-missing",
  severity: "info",
  title: "Every direction and branch is measured",
  checks:
    "On a hop of which any level was measured: ends, branches and carriers of which none was, in whatever mode. Nothing is asked of a hop that was not measured at all.",
  why: "A direction that was not read may be the one that is low, and a standby that nobody forced on is found dead on the day it is needed.",
  fix: "Read the level there as well, the standby with the switch forced to it, and write it down.",
  source: "common practice",
  needs: ["levels"],
  good: measuredStandby(
    "-44.6 dBm at TARN on 2026-05-02",
    "-49.5 dBm at TARN branch standby on 2026-05-02",
    "-43.9 dBm at KELD on 2026-05-02",
    "-48.8 dBm at KELD branch standby on 2026-05-02",
  ),
  bad: measuredStandby("-44.6 dBm at TARN on 2026-05-02", "-43.9 dBm at KELD on 2026-05-02"),
  check({ hop, result, report }) {
    const missing = held({ hop, result })?.unmeasured ?? [];
    if (missing.length === 0) return;
    const several = missing.some(({ carrier }) => carrier > 1);
    const places = missing.map((one) => placeWords(one, several));
    const shown = places.length > 6 ? [...places.slice(0, 6), `${places.length - 6} more`] : places;
    report({
      at: address("hop", hop.name, "measured"),
      about: "missing",
      message: `levels were measured on this hop, but not at ${listed(shown.map((one) => one.replaceAll(", ", " ")))}`,
      help: "measure there as well",
    });
  },
};
