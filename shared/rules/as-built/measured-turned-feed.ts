import { readingPlace, signatureWords } from "../../as-built/words.js";
import { decibels } from "../../format/numbers.js";
import type { HopRule } from "../rule.js";
import { measuredHop } from "./example-reading.js";
import { readWords } from "./measured-side-lobe.js";
import { aboutReading, held, readingAddress, signedReadings } from "./readings.js";

const OTHER = "antenna XP60-18 like DISH60-18 { xpd 38 dB }\n\n";
const onIts = (example: string) => OTHER + example.replaceAll("antenna DISH60-18", "antenna XP60-18");

export const measuredTurnedFeed: HopRule = {
  scope: "hop",
  id: "measured-turned-feed",
  severity: "warning",
  title: "Both ends have the same polarization",
  checks:
    "A measured level that is below the promised one by what the cross-polar discriminations (`xpd`) of both antennas leave, while no other direction and no other branch agrees, and one side lobe alone takes off less. Where two side lobes take off as much, both are named.",
  why: "With one feed turned by 90 degrees only what both antennas leak arrives. The maximum is broad and shallow, and the radios may still come up.",
  fix: "Compare the feeds, and the marks on units and couplers, at both ends with the polarization of the design.",
  source: "common practice, no source",
  needs: ["levels"],
  good: onIts(measuredHop("-41.6 dBm at TARN on 2026-05-02")),
  bad: onIts(measuredHop("-76.3 dBm at TARN on 2026-05-02", "-75.9 dBm at KELD on 2026-05-02")),
  check({ hop, result, report }) {
    const found = held({ hop, result });
    const those = found === undefined ? [] : signedReadings(found, "turned feed");
    const [first, ...more] = those;
    const turned = found?.signatures.turned;
    if (first === undefined || turned === undefined) return;
    report({
      at: readingAddress(hop, first.index),
      about: aboutReading(first),
      message: `${readWords(those)} than promised: as if ${signatureWords(first.signatures)}`,
      help: `compare the polarization of both ends; a turned feed takes off ${decibels(turned.fromDb)} to ${decibels(turned.toDb)}`,
      related: more.map(({ index, measured }) => ({
        at: readingAddress(hop, index),
        message: `${readingPlace(measured)} too`,
      })),
    });
  },
};
