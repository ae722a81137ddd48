import type { HeldReading } from "../../as-built/held.js";
import type { Signatures } from "../../as-built/signatures.js";
import { deviationWords, readingPlace, signatureWords } from "../../as-built/words.js";
import { decibels } from "../../format/numbers.js";
import type { HopRule } from "../rule.js";
import { measuredHop } from "./example-reading.js";
import { aboutReading, held, readingAddress, signedReadings } from "./readings.js";

export const measuredSideLobe: HopRule = {
  scope: "hop",
  id: "measured-side-lobe",
  severity: "warning",
  title: "Antennas look at each other with their main lobes",
  checks:
    "A measured level that is below the promised one by what the first side lobe of one antenna, or of both, takes off, while no other direction and no other branch agrees. The lobe is that of the antenna's pattern; of an envelope 1.7 beamwidths off the axis; without a pattern the first side lobe of Rec. ITU-R F.699.",
  why: "A side lobe has a maximum of its own: whoever turns the antenna for the best level finds it and stops there. The hop works in fine weather and fails with the first fade.",
  fix: "Turn one antenna through its whole main lobe, first in azimuth, then in elevation, and look for the higher maximum beyond the first minimum; then the other antenna.",
  source: "common practice, no source; Rec. ITU-R F.699-8 where it stands for a pattern",
  needs: ["levels"],
  good: measuredHop("-41.6 dBm at TARN on 2026-05-02", "-40.9 dBm at KELD on 2026-05-02"),
  bad: measuredHop("-61.3 dBm at TARN on 2026-05-02", "-60.8 dBm at KELD on 2026-05-02"),
  check({ hop, result, report }) {
    const found = held({ hop, result });
    const those = found === undefined ? [] : signedReadings(found, "side lobe");
    const [first, ...more] = those;
    if (found === undefined || first === undefined) return;
    report({
      at: readingAddress(hop, first.index),
      about: aboutReading(first),
      message: `${readWords(those)} than promised: as if ${signatureWords(first.signatures)}`,
      help: `turn the antennas through their whole main lobes${lobeWords(found.signatures)}`,
      related: more.map(({ index, measured }) => ({
        at: readingAddress(hop, index),
        message: `${readingPlace(measured)} too`,
      })),
    });
  },
};

/** `TARN reads 20.3 dB less, KELD 20.4 dB less`; of many the first two. */
export function readWords(those: readonly HeldReading[]): string {
  const [first, second] = those;
  const one = `${readingPlace(first!.measured)} reads ${deviationWords(first!.lessDb!)}`;
  if (second === undefined) return one;
  return `${one}, ${readingPlace(second.measured)} ${deviationWords(second.lessDb!)}`;
}

function lobeWords({ oneLobe, lobes }: Signatures): string {
  if (oneLobe === undefined) return "";
  const by = [...new Set(lobes.flatMap((lobe) => lobe?.by ?? []))].join(" and ");
  return `; a first side lobe takes off ${decibels(oneLobe.fromDb)} to ${decibels(oneLobe.toDb)}, by ${by}`;
}
