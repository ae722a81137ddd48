/** Identifiers of wired parts: the same as long as the part has its place. */

export function chassisId(name: string): string {
  return `chassis ${name}`;
}

export function cardId(chassis: string, slot: number): string {
  return `card ${chassis}/${slot}`;
}

/** @param index among the services of the site, from 0 */
export function serviceId(index: number): string {
  return `service ${index + 1}`;
}

export function unitId(hop: string, branch: string): string {
  return `unit ${hop} ${branch}`;
}
