/** Resolved values by name, each computed once and remembered with the declarations it was made from. */
import type { Stock } from "../../shared/design/change.js";
import type { Climate } from "../../shared/design/climate.js";
import type { ChannelPlan } from "../../shared/spectrum/channel-plans.data.js";
import { quantityOf } from "../facts/fact.js";
import {
  antennaOf,
  climateOf,
  couplerOf,
  feederOf,
  objectiveOf,
  planOf,
  radioOf,
  siteOf,
} from "../resolve/catalogue.js";
import { trafficAtSiteOf, trafficOf } from "../resolve/demand.js";
import { cableOf, cardOf, chassisOf, siteEquipmentOf } from "../resolve/equipment.js";
import type { Names } from "../resolve/fields.js";
import { inheritedFacts, merge } from "../resolve/inherit.js";
import { interferenceAtSiteOf, interferenceOf, othersOf } from "../resolve/interference.js";
import { licenceOf } from "../resolve/licence.js";
import type { Lookup } from "../resolve/lookup.js";
import { acceptancesOf, policyOf } from "../resolve/policy.js";
import { sheetTemplateOf } from "../resolve/sheets.js";
import type { NamedKind } from "../schema/kinds.js";
import type { Memo } from "./memo.js";
import type { Declaration } from "./source-file.js";

/** What is declared now. */
interface Declared {
  declarations(key: string): readonly Declaration[];
  /** Whether anything is declared so, whatever stands. */
  isDeclared(key: string): boolean;
  names(kind: NamedKind): readonly string[];
}

export function memoizedLookup(memo: Memo, { declarations, isDeclared, names }: Declared): Lookup {
  const declaration = (key: string) => {
    memo.touch(key);
    return declarations(key)[0];
  };
  const entry = <T>(
    kind: string,
    make: (
      entry: Declaration,
      facts: ReturnType<typeof inheritedFacts>,
      names: Names & Pick<Lookup, "declaration">,
    ) => T,
  ) => {
    return (name: string): T | undefined => {
      return memo.get(`=${kind} ${name}`, () => {
        const found = declaration(`${kind} ${name}`);
        return found && make(found, inheritedFacts(found, lookup), lookup);
      });
    };
  };
  const lookup: Lookup = {
    declaration,
    isDeclared: (key) => {
      memo.touch(key);
      return isDeclared(key);
    },
    site: entry("site", (found, facts) => siteOf(found, merge(facts, lookup.defaults("site")), lookup)),
    radio: entry("radio", radioOf),
    antenna: entry("antenna", antennaOf),
    coupler: entry("coupler", couplerOf),
    feeder: entry("feeder", feederOf),
    cable: entry("cable", cableOf),
    chassis: entry("chassis", chassisOf),
    card: entry("card", cardOf),
    equipment: (name) =>
      memo.get(`=equipment ${name}`, () => {
        const found = declaration(`site ${name}`);
        const facts = found && merge(inheritedFacts(found, lookup), lookup.defaults("site"));
        return facts && siteEquipmentOf(name, facts, lookup);
      }),
    acceptedAt: (name) =>
      memo.get(`=accepted-at ${name}`, () => {
        const accepts = acceptancesOf(declaration(`site ${name}`)?.fact.facts ?? []);
        return accepts.length > 0 ? accepts : undefined;
      }),
    objective: entry("objective", objectiveOf),
    plans: () =>
      memo.get("=plans", (): readonly ChannelPlan[] => {
        memo.touch("plans");
        return names("plan").flatMap((name) => {
          const found = declaration(`plan ${name}`);
          return (found && planOf(found)) ?? [];
        });
      }),
    stock: () =>
      memo.get("=stock", (): Stock => {
        const all = <T>(
          kind: "antenna" | "radio" | "coupler",
          find: (name: string) => T | undefined,
        ): T[] => {
          memo.touch(`${kind}s`);
          return names(kind).flatMap((name) => {
            const found = declaration(`${kind} ${name}`)?.template ? undefined : find(name);
            return found === undefined ? [] : [found];
          });
        };
        return {
          antennas: all("antenna", lookup.antenna),
          radios: all("radio", lookup.radio),
          couplers: all("coupler", lookup.coupler),
        };
      }),
    climate: () =>
      memo.get("=climate", (): Climate => {
        const facts = declaration("climate")?.fact.facts ?? [];
        return climateOf(facts, {}, lookup);
      }),
    bridgeGapsM: () => memo.get("=bridge-gaps", () => quantityOf(declaration("bridge-gaps")?.fact, "below")),
    policy: () =>
      memo.get("=policy", () => {
        memo.touch("policy");
        return policyOf(declarations("policy"));
      }),
    interference: () =>
      memo.get("=interference", () => interferenceOf(declaration("interference")?.fact.facts ?? [], lookup)),
    interferenceAt: (name) =>
      memo.get(`=interference-at ${name}`, () => {
        const found = declaration(`site ${name}`);
        return found && interferenceAtSiteOf(found.fact.facts, lookup);
      }),
    others: () =>
      memo.get("=others", () => {
        memo.touch("others");
        const lists = declarations("others").flatMap((entry, index) => othersOf(entry, index) ?? []);
        return lists.length > 0 ? lists : undefined;
      }),
    licences: () =>
      memo.get("=licences", () => {
        memo.touch("licence");
        const stated = declarations("licence").flatMap(
          (entry, index) => licenceOf(entry, index, lookup) ?? [],
        );
        return stated.length > 0 ? stated : undefined;
      }),
    sheets: () =>
      memo.get("=sheets", () => {
        memo.touch("sheets");
        const stated = declarations("sheets").flatMap((entry, index) => sheetTemplateOf(entry, index) ?? []);
        return stated.length > 0 ? stated : undefined;
      }),
    traffic: () => memo.get("=traffic", () => trafficOf(declaration("traffic")?.fact.facts ?? [], lookup)),
    trafficAt: (name) =>
      memo.get(`=traffic-at ${name}`, () => {
        const found = declaration(`site ${name}`);
        return found && trafficAtSiteOf(found.fact.facts);
      }),
    defaults: (of) => declaration(`defaults ${of}`)?.fact.facts ?? [],
  };
  return lookup;
}
