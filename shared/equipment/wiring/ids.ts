/** Identifiers of wired parts: the same as long as the part has its place. */

export function chassisId(name: string): string {
  return `chassis ${name}`;
}

export function cardId(chassis: string, slot: number): string {
  return `card ${chassis}/${slot}`;
}

export function unitId(hop: string, branch: string): string {
  return `unit ${hop} ${branch}`;
}
