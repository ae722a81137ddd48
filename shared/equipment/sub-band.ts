/** Which sub-band of a unit holds the frequencies of a hop. */
import type { Hop } from "../design/design.js";
import type { SubBand } from "../design/equipment.js";

export function holds(
  { low, high }: SubBand,
  { lowHz, highHz }: { readonly lowHz: number; readonly highHz: number },
): boolean {
  return lowHz >= low.fromHz && lowHz <= low.toHz && highHz >= high.fromHz && highHz <= high.toHz;
}

export function frequenciesOf(hop: Hop): { readonly lowHz: number; readonly highHz: number } | undefined {
  const [one, other] = hop.ends.map((end) => end.transmitFrequencyHz);
  if (one === undefined || other === undefined) return undefined;
  return { lowHz: Math.min(one, other), highHz: Math.max(one, other) };
}
