/**
 * Addresses: how a finding names a fact without knowing where in the text it stands.
 * `hop KELD-TARN`, `hop KELD-TARN / TARN`, `hop KELD-TARN / TARN / antenna`, `site KELD / at`,
 * `radio R18 / mode#2` (third of several). The language finds the range when it is shown.
 */
export type Address = string;

export function address(kind: string, name: string, ...steps: readonly string[]): Address {
  return [`${kind} ${name}`, ...steps].join(" / ");
}

/** Address of the k-th (from 0) fact of that name; the first one carries no number. */
export function nth(fact: string, index: number): string {
  return index === 0 ? fact : `${fact}#${index}`;
}
