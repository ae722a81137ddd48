/**
 * One mistake made ten thousand times, a catalogue entry misspelt for example, is told a hundred times and counted: the
 * rest would bury all others and fill whatever keeps the output.
 */
import type { PlacedFinding } from "./placed.js";

export const MOST_ALIKE = 100;

/** @returns the same in their order, where more than a hundred say the same the hundredth with how many more there are */
export function withoutRepeats(findings: readonly PlacedFinding[]): PlacedFinding[] {
  if (findings.length <= MOST_ALIKE) return [...findings];
  const total = new Map<string, number>();
  for (const finding of findings) total.set(said(finding), (total.get(said(finding)) ?? 0) + 1);
  const seen = new Map<string, number>();
  return findings.flatMap((finding): PlacedFinding[] => {
    const what = said(finding);
    const nth = (seen.get(what) ?? 0) + 1;
    seen.set(what, nth);
    if (nth > MOST_ALIKE) return [];
    const alike = total.get(what)! - MOST_ALIKE;
    if (nth < MOST_ALIKE || alike <= 0) return [finding];
    return [{ ...finding, alike, message: `${finding.message}; ${alike} more like it` }];
  });
}

function said({ rule, severity, message, accepted }: PlacedFinding): string {
  return `${rule}\n${severity}\n${message}\n${accepted ? "accepted" : ""}`;
}
