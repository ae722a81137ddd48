import { type Address, address } from "../design/address.js";
import type { RelatedPlace } from "../design/finding.js";
import type { NetworkContext } from "./rule.js";

/** Hops that a remark names; the others are counted. */
const NAMED = 3;

/** Remarks by what they are about, which are codes and names: two with the same are one. */
export type Remarks = Map<
  string,
  { readonly message: string; readonly hops: string[]; readonly at: Address; readonly help?: string }
>;

/**
 * Says each remark once, however many hops share it: at the place that mends it for all, or at the hop when there is
 * only one. A hop that accepts the rule is told by itself, as accepted.
 */
export function reportShared(
  { design, report }: NetworkContext,
  rule: string,
  remarks: Remarks,
  severity?: "info" | "warning" | "error",
): void {
  for (const [about, { message, hops, at, help }] of remarks) {
    const accepts = (name: string) =>
      design.hops.get(name)?.accepts.some((one) => one.rule === rule) ?? false;
    for (const hop of hops.filter(accepts)) report({ at: address("hop", hop), message, help, severity }, hop);
    const others = hops.filter((name) => !accepts(name));
    if (others.length === 0) continue;
    const [only] = others;
    const shared = { about, help, severity };
    if (others.length === 1) report({ ...shared, at: address("hop", only!), message }, only);
    else report({ ...shared, at, message: `${message}; on ${named(others)}`, related: places(others) });
  }
}

/** Adds a hop to a remark. */
export function remark(
  remarks: Remarks,
  { about, message, at, help }: { about: string; message: string; at: Address; help?: string },
  hop: string,
): void {
  const known = remarks.get(about);
  if (known === undefined) remarks.set(about, { message, hops: [hop], at, help });
  else known.hops.push(hop);
}

export function named(hops: readonly string[]): string {
  const more = hops.length - NAMED;
  return more > 0
    ? `${hops.length} hops: ${hops.slice(0, NAMED).join(", ")} and ${more} more`
    : `${hops.slice(0, -1).join(", ")} and ${hops.at(-1)}`;
}

export function places(hops: readonly string[]): RelatedPlace[] {
  return hops.slice(0, NAMED).map((hop) => ({ at: address("hop", hop), message: hop }));
}
