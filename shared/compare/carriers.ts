/** Which carrier of the new side is which of the old: by what it is on the air, never by the order of lines. */
import type { CarrierEnd, CarrierResult } from "../evaluate/account/carrier-result.js";
import type { HopResult } from "../evaluate/account/result.js";
import { frequency } from "../format/numbers.js";

export interface CarrierPair {
  /** Name of the carrier on the new side. */
  readonly carrier: string;
  /** The same end of both sides; undefined: the old side had no such carrier. */
  readonly was?: CarrierEnd;
  readonly is: CarrierEnd;
}

/** Each end of each carrier of the new side with its counterpart. */
export function pairedCarriers(
  was: HopResult,
  is: HopResult,
  siteNow: (site: string) => string,
): CarrierPair[] {
  // Both ends of a hop have the same carriers, so one end tells which is which.
  const end = ({ ends }: CarrierResult, site: string) => ends.find((one) => one.site === site);
  const oldSite = (site: string) => was.ends.find((one) => siteNow(one) === site) ?? "";
  const [first] = is.ends;
  const sent = (carrier: CarrierResult, site: string) => ({
    carrier,
    frequencyHz: end(carrier, site)?.transmitHz,
    polarization: carrier.polarization,
  });
  const pairs = pairedByAir(
    was.carriers.map((carrier) => sent(carrier, oldSite(first))),
    is.carriers.map((carrier) => sent(carrier, first)),
  );
  return is.ends.flatMap((site) =>
    [...pairs].map(([now, then]) => ({
      carrier: now.carrier.name,
      was: then && end(then.carrier, oldSite(site)),
      is: end(now.carrier, site)!,
    })),
  );
}

export interface OnTheAir {
  readonly frequencyHz?: number;
  readonly polarization?: string;
}

/**
 * Counterparts: those of one frequency and polarization, then of one frequency, then of one polarization, then any.
 * Within each the lists keep their order.
 */
export function pairedByAir<T extends OnTheAir>(
  before: readonly T[],
  after: readonly T[],
): Map<T, T | undefined> {
  const pairs = new Map<T, T | undefined>(after.map((now) => [now, undefined]));
  const open = new Set(before);
  const on = ({ frequencyHz }: T) => (frequencyHz === undefined ? "" : frequency(frequencyHz));
  const keys: ((one: T) => string)[] = [
    (one) => `${on(one)} ${one.polarization}`,
    on,
    ({ polarization = "" }) => polarization,
    () => "",
  ];
  for (const keyOf of keys) {
    const free = Map.groupBy(open, keyOf);
    for (const now of after) {
      const then = pairs.get(now) ? undefined : free.get(keyOf(now))?.shift();
      if (then === undefined) continue;
      pairs.set(now, then);
      open.delete(then);
    }
  }
  return pairs;
}
