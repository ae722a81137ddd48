/** What hangs on the structure of a site: each antenna with where it looks, what is on it and what comes down from it. */

import { type Address, address } from "../../../../design/address.js";
import { runsOf } from "../../../../equipment/runs.js";
import type { SiteEnd, SitePlan } from "../../../../equipment/site-plan.js";
import { antennasStated, standWords } from "../../../../equipment/stands.js";
import { sharedWithPartner } from "../../../../equipment/structure-load.js";
import { labelsOf } from "../../../../equipment/wiring/labels.js";
import type { Joint, WiredPart, Wiring } from "../../../../equipment/wiring/wiring.js";
import type { HopResult } from "../../../../evaluate/account/result.js";

export interface Hung {
  readonly name: string;
  readonly title?: string;
  /** `antenna`, `second antenna`. */
  readonly role: string;
  readonly hop: string;
  /** The fact that states it. */
  readonly at: Address;
  /** Undefined: nothing else numbers it. From 1. */
  readonly number?: number;
  /** The site that it looks at. */
  readonly far: string;
  /** Undefined: not stated. */
  readonly heightM?: number;
  readonly diameterM?: number;
  /** Undefined: a position is missing. */
  readonly azimuthDeg?: number;
  readonly distanceM?: number;
  /** Names of units and couplers on it, one for each piece; units of an all-indoor radio stand in the rack. */
  readonly units: readonly string[];
  readonly couplers: readonly string[];
  /** Of the hops beside its own. */
  readonly also: readonly string[];
  readonly down: readonly Down[];
}

/** A cable or guide from it, or from its units, to indoors. */
interface Down {
  readonly number: string;
  readonly kind: "cable" | "guide";
}

/** @param results of the hops, by name */
export function hungAt(
  plan: SitePlan,
  wiring: Wiring,
  results: ReadonlyMap<string, HopResult>,
): readonly Hung[] {
  const numbers = labelsOf(wiring);
  // To be laid all the same, whatever they end at indoors.
  const open = runsOf(plan, {}).flatMap((run) => run.open ?? []);
  const inwards = Map.groupBy(wiring.joints, ({ ends }) => ends[1].part);
  return plan.ends.flatMap((end) =>
    antennasStated(end.end).flatMap((stand): Hung[] => {
      const { antenna, heightM, fact } = stand;
      if (antenna === undefined || (fact === "antenna" && sharedWithPartner(end, plan))) return [];
      const behind = behindOf(`antenna ${end.hop.name} ${fact}`, wiring, inwards);
      const units = behind.parts.filter(({ kind }) => kind === "unit");
      const outdoor = end.facts?.construction !== "all-indoor";
      return [
        {
          name: antenna.name,
          title: antenna.title,
          role: standWords(stand),
          hop: end.hop.name,
          at: address("hop", end.hop.name, end.end.site.name, fact),
          far: end.far.site.name,
          heightM,
          diameterM: antenna.diameterM,
          ...lookOf(end, results.get(end.hop.name)),
          units: outdoor ? units.map(({ name }) => name ?? "unit") : [],
          couplers: behind.parts.flatMap(({ kind, name }) => (kind === "coupler" ? [name ?? "coupler"] : [])),
          also: [...new Set(units.flatMap(({ of }) => of?.hop ?? []))].filter((hop) => hop !== end.hop.name),
          down: [
            ...open
              .filter(({ unit }) => units.some(({ id }) => id === unit))
              .map(({ cable }): Down => ({ number: cable, kind: "cable" })),
            ...behind.joints.flatMap((joint): Down[] => {
              const { kind } = joint.by;
              const isDown = kind === "cable" || (kind === "waveguide" && !outdoor);
              const number = numbers.get(joint)?.cable;
              return isDown && number !== undefined
                ? [{ number, kind: kind === "cable" ? "cable" : "guide" }]
                : [];
            }),
          ],
        },
      ];
    }),
  );
}

function lookOf(
  { hop, end }: SiteEnd,
  result: HopResult | undefined,
): { readonly azimuthDeg?: number; readonly distanceM?: number } {
  const at = end === hop.ends[0] ? 0 : 1;
  return { azimuthDeg: result?.geometry?.[at].azimuthDeg, distanceM: result?.distanceM };
}

/** Everything that leads to an antenna, back to the ports indoors. */
function behindOf(
  antenna: string,
  { parts }: Wiring,
  inwards: ReadonlyMap<string, readonly Joint[]>,
): { readonly parts: readonly WiredPart[]; readonly joints: readonly Joint[] } {
  const reached = [antenna];
  const joints: Joint[] = [];
  for (const id of reached) {
    for (const joint of inwards.get(id) ?? []) {
      if (joint.carries.kind !== "hop") continue;
      joints.push(joint);
      const from = joint.ends[0].part;
      const kind = parts.get(from)?.kind;
      if (kind !== "card" && kind !== "chassis" && !reached.includes(from)) reached.push(from);
    }
  }
  return { parts: reached.slice(1).flatMap((id) => parts.get(id) ?? []), joints };
}
