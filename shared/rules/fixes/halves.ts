import { address } from "../../design/address.js";
import type { Hop } from "../../design/design.js";
import type { FactChange } from "../../design/fact-change.js";
import { otherHalf } from "../../radio/halves.js";
import { namesOf, settledByHop } from "../settled-bands.js";
import { decision, type Fixes } from "./mending.js";

/** Exchanges high and low of both ends of the hop. */
export const exchangeHalves: Fixes = ({ hop }) => {
  const changes = hop && exchange(hop);
  return changes
    ? [decision(`Exchange high and low of ${hop.name} (changes both its ends)`, ...changes)]
    : [];
};

/**
 * The fewest hops of all that hang together with this one, so that each site transmits one half. There is none where a
 * ring is odd: an exchange moves the fault from site to site.
 */
export const exchangeFewest: Fixes = (mending) => {
  const { hop, design } = mending;
  if (!hop) return [];
  const settled = settledByHop(design.hops.values()).get(hop.name);
  // Against a hop that accepts both halves, which is not counted among those that hang together.
  if (settled === undefined || settled.exchanged.length + settled.leftOut.length === 0)
    return exchangeHalves(mending);
  const { exchanged, keptExchanged, leftOut } = settled;
  const each = exchanged.map((name) => exchange(design.hops.get(name)!));
  if (leftOut.length > 0 || each.includes(undefined)) return [];
  const built = keptExchanged.length === 0 ? "" : `, of which ${namesOf(keptExchanged)} built`;
  const what = `changes both ends of ${exchanged.length === 1 ? "it" : `these ${exchanged.length} hops`}${built}`;
  return [
    decision(
      `Exchange high and low of ${namesOf(exchanged)} (${what})`,
      ...each.flatMap((changes) => changes ?? []),
    ),
  ];
};

/** Undefined: no half is stated, or an end states a frequency in place of one. */
function exchange({ name, ends }: Hop): readonly FactChange[] | undefined {
  const stated = ends.filter(({ transmits }) => transmits !== undefined);
  const isPlain = ends.every(
    ({ transmits, transmitFrequencyHz }) => transmits !== undefined || transmitFrequencyHz === undefined,
  );
  if (stated.length === 0 || !isPlain) return undefined;
  return stated.map(({ site, transmits }) => ({
    do: "replace",
    at: address("hop", name, site.name, "transmits"),
    argument: "value",
    by: otherHalf(transmits!),
  }));
}
