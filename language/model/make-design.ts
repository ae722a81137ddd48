/** A design as data, put together from what its model resolves: of what did not change the same objects. */
import type { Design, Hop } from "../../shared/design/design.js";
import type { Absence, Licence } from "../../shared/design/licence.js";
import { isDated, type View } from "../../shared/design/state.js";
import { hopSpan } from "../check/states.js";
import { type Fact, wordOf } from "../facts/fact.js";
import type { ResolvedDemand } from "../resolve/demand.js";
import type { ResolvedHop } from "../resolve/hop.js";
import { licenceTermsOf } from "../resolve/licence.js";
import type { Lookup } from "../resolve/lookup.js";
import { stockOf } from "../resolve/stock.js";
import { END } from "../schema/index.js";
import type { Resolved } from "./resolved.js";
import type { Declaration } from "./source-file.js";
import type { TakenOut } from "./taken-out.js";

/** What a design is put together from. */
export interface ModelOfDesign {
  readonly lookup: Lookup;
  readonly view: View;
  names(kind: string): readonly string[];
  hop(name: string): ResolvedHop | undefined;
  demand(name: string): ResolvedDemand | undefined;
  declarations(key: string): readonly Declaration[];
  /** Those that stand in the view. */
  standing(key: string): readonly Declaration[];
  standsHop(name: string): boolean;
  networkFacts(): readonly Fact[];
  title(): string | undefined;
  terrain(): readonly string[];
  maps(): readonly string[];
}

/** Hops that cannot be resolved yet are not in it. */
export function makeDesign(model: ModelOfDesign, resolved: Resolved, takenOut: TakenOut): Design {
  const { lookup } = model;
  const of = <T>(kind: string, what: string, find: (name: string) => T | undefined) =>
    resolved.of(what, model.names(kind), find);
  const hops = of("hop", "hop", (name) => model.hop(name)?.hop);
  const demands = takenOut.demandsLeft(of("demand", "demand", (name) => model.demand(name)?.demand));
  const maps = model.maps();
  const licences = takenOut.licencesLeft(lookup.licences());
  return {
    title: model.title(),
    terrain: model.terrain(),
    maps: maps.length > 0 ? maps : undefined,
    policy: lookup.policy(),
    sites: of("site", "site", lookup.site),
    hops,
    unformed: unlessEmpty(of("hop", "unformed", (name) => model.hop(name)?.unformed)),
    sitesOfUnfinished: sitesOfUnfinished(model, hops),
    acceptedAt: unlessEmpty(of("site", "accepted-at", lookup.acceptedAt)),
    interference: lookup.interference(),
    interferenceAt: unlessEmpty(of("site", "interference-at", lookup.interferenceAt)),
    others: lookup.others(),
    licences,
    absentHops: licences && absentHops(model, licences, hops),
    licenceTerms: licenceTermsOf(model.declarations("licences")[0]?.fact),
    sheets: lookup.sheets(),
    demands: unlessEmpty(demands),
    traffic: lookup.traffic(),
    trafficAt: unlessEmpty(of("site", "traffic-at", lookup.trafficAt)),
    ...stockOf(model.networkFacts(), of("site", "equipment", lookup.equipment), lookup),
  };
}

function unlessEmpty<T>(map: ReadonlyMap<string, T>): ReadonlyMap<string, T> | undefined {
  return map.size > 0 ? map : undefined;
}

/** Sites at which hops end that cannot be resolved; every declaration of such a name counts. */
function sitesOfUnfinished(
  model: ModelOfDesign,
  resolved: ReadonlyMap<string, Hop>,
): ReadonlySet<string> | undefined {
  if (model.names("hop").length === resolved.size) return undefined;
  const names = model.names("hop").filter((name) => model.standsHop(name));
  if (names.length === resolved.size) return undefined;
  const facts = names
    .filter((name) => !resolved.has(name))
    .flatMap((name) => model.standing(`hop ${name}`).flatMap((entry) => entry.fact.facts));
  const ends = facts.filter((fact) => fact.property === END);
  return new Set(ends.flatMap((fact) => wordOf(fact, "site") ?? []));
}

/** Of the hops that licences name, those that do not stand in the view. */
function absentHops(
  model: ModelOfDesign,
  licences: readonly Licence[],
  standing: ReadonlyMap<string, Hop>,
): ReadonlyMap<string, Absence> | undefined {
  const absent = new Map<string, Absence>();
  for (const { hop } of licences) {
    if (standing.has(hop) || absent.has(hop) || model.standsHop(hop)) continue;
    const entry = model.declarations(`hop ${hop}`)[0];
    absent.set(hop, entry ? absenceOf(model, entry) : { is: "not declared" });
  }
  return unlessEmpty(absent);
}

function absenceOf(model: ModelOfDesign, entry: Declaration): Absence {
  const { until } = hopSpan(entry, (key) => model.declarations(key)[0]);
  if (until > model.view.on) return { is: "to come" };
  return isDated(until) ? { is: "gone", since: until } : { is: "gone" };
}
