import { type Address, address } from "../design/address.js";
import type { Hop } from "../design/design.js";
import type { RelatedPlace } from "../design/finding.js";
import type { HopResult } from "../evaluate/account/result.js";
import type { GatheringRule, NetworkContext } from "./rule.js";

/** Hops that a remark names; the others are counted. */
const NAMED = 3;

export interface Remark {
  /** Codes and names: two with the same are one remark. */
  readonly about: string;
  readonly message: string;
  /** The place that mends it for all hops. */
  readonly at: Address;
  readonly help?: string;
}

/**
 * Says each remark once, however many hops share it: at the place that mends it for all, or at the hop when there is
 * only one. A hop that accepts the rule is told by itself, as accepted.
 * @param remarksOf what one hop gives rise to
 */
export function sharedRemarks(
  rule: string,
  remarksOf: (hop: Hop, result: HopResult) => readonly Remark[],
): Pick<GatheringRule<readonly Remark[]>, "each" | "note" | "tell"> {
  return {
    each: "hop",
    note: (hop, result) => {
      const remarks = result === undefined ? [] : remarksOf(hop, result);
      return remarks.length === 0 ? undefined : remarks;
    },
    tell: (noted, { report }) => {
      const shared = new Map<string, { readonly remark: Remark; readonly hops: string[] }>();
      for (const { hop, note } of noted) {
        const accepts = hop.accepts.some((one) => one.rule === rule);
        for (const remark of note) {
          const { message, help } = remark;
          if (accepts) report({ at: address("hop", hop.name), message, help }, hop.name);
          else add(shared, remark, hop.name);
        }
      }
      for (const { remark, hops } of shared.values()) tellShared(remark, hops, report);
    },
  };
}

function add(
  shared: Map<string, { readonly remark: Remark; readonly hops: string[] }>,
  remark: Remark,
  hop: string,
) {
  const known = shared.get(remark.about);
  if (known) known.hops.push(hop);
  else shared.set(remark.about, { remark, hops: [hop] });
}

function tellShared(
  { about, message, at, help }: Remark,
  hops: readonly string[],
  report: NetworkContext["report"],
): void {
  const [only] = hops;
  if (hops.length === 1) report({ about, help, at: address("hop", only!), message }, only);
  else report({ about, help, at, message: `${message}; on ${named(hops)}`, related: places(hops) });
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
