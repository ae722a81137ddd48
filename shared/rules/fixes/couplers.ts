/** Couplers of the catalogue that suit the hop. */
import type { Coupler } from "../../design/catalogue.js";
import type { HopEnd } from "../../design/design.js";
import { antennasStated, type Stand, suits } from "../../equipment/stands.js";
import { factsAt } from "../../radio/arrangement-pairs.js";
import { decision, type EndHere, endHere, type Fixes, factHere, type Mending } from "./mending.js";

export const addCoupler: Fixes = (mending) => {
  const here = endHere(mending);
  if (!here) return [];
  const { couplerFact } = standHere(mending, here.end);
  return couplersFor(mending, here).map(({ name }) =>
    decision(`Add coupler ${name} at ${here.site} (changes the equipment)`, {
      do: "add",
      in: here.at,
      lines: [`${couplerFact} ${name}`],
    }),
  );
};

export const otherCoupler: Fixes = (mending) => {
  const here = endHere(mending);
  if (!here) return [];
  const { coupler, couplerFact } = standHere(mending, here.end);
  return couplersFor(mending, here)
    .filter(({ name }) => name !== coupler?.name)
    .map(({ name }) =>
      decision(`Take coupler ${name} at ${here.site} (changes the equipment)`, {
        do: "replace",
        at: `${here.at} / ${couplerFact}`,
        argument: "coupler",
        by: name,
      }),
    );
};

/** The antenna that a finding's address names by its own fact or by that of its coupler, else the first. */
export function standHere(mending: Mending, end: HopEnd): Stand {
  const fact = factHere(mending);
  const stands = antennasStated(end);
  return stands.find((one) => one.fact === fact || one.couplerFact === fact) ?? stands[0]!;
}

/** Those of the usual kind first. Without a band stated none is proposed: nobody knows whether it suits. */
export function couplersFor(
  { catalogue }: Mending,
  { hop, end }: Pick<EndHere, "hop" | "end">,
): readonly Coupler[] {
  const facts = factsAt(hop, end);
  if (facts === undefined) return [];
  const frequencies = hop.ends.flatMap((end) => end.transmitFrequencyHz ?? []);
  const suiting = catalogue.couplers.filter(
    ({ kind, band }) =>
      kind !== undefined &&
      suits(kind, facts) &&
      band !== undefined &&
      frequencies.every((hz) => band.fromHz <= hz && hz <= band.toHz),
  );
  const isUsual = ({ kind }: Coupler) => kind === facts.coupler;
  return [...suiting.filter(isUsual), ...suiting.filter((one) => !isUsual(one))];
}
