/** The property table as a whole, and the look-ups on it. The order of the rows is the canonical order of a block. */
import { antennaRows, couplerRows, feederRows, planRows, radioRows } from "./table/catalogue.js";
import { cableRows, installationRows, pairRows, partRows, unitRows } from "./table/equipment.js";
import { endRows, hopRows } from "./table/hop.js";
import { indoorRows, siteEquipmentRows, stockRows } from "./table/indoor.js";
import { networkRows } from "./table/network.js";
import { policyRows } from "./table/policy.js";
import { siteRows } from "./table/site.js";
import type { ArgSpec, Context, Property, ValueSpec } from "./types.js";

export const PROPERTIES: readonly Property[] = [
  ...networkRows,
  ...policyRows,
  ...stockRows,
  ...siteRows,
  ...siteEquipmentRows,
  ...radioRows,
  ...antennaRows,
  ...couplerRows,
  ...feederRows,
  ...unitRows,
  ...partRows,
  ...cableRows,
  ...indoorRows,
  ...planRows,
  ...pairRows,
  ...hopRows,
  ...endRows,
  ...installationRows,
];

/** An end of a hop has no word of its own: it is named by its site. */
export const END: Property = {
  name: "(site)",
  in: ["hop"],
  args: [{ name: "site", value: { type: "reference", kind: "site" }, meaning: "Site of this end." }],
  block: "end",
  repeatable: true,
  meaning: "One end of the hop, named by its site. A hop has two.",
  source: "common practice",
  example: "KELD {",
};

const BY_CONTEXT: ReadonlyMap<Context, ReadonlyMap<string, Property>> = byContext();

function byContext(): Map<Context, Map<string, Property>> {
  const contexts = new Map<Context, Map<string, Property>>();
  for (const property of PROPERTIES) {
    for (const context of property.in) {
      const rows = contexts.get(context) ?? new Map<string, Property>();
      if (rows.has(property.name)) throw new Error(`two rows for ${property.name} in ${context}`);
      contexts.set(context, rows.set(property.name, property));
    }
  }
  return contexts;
}

export function findProperty(context: Context, name: string): Property | undefined {
  return BY_CONTEXT.get(context)?.get(name);
}

/** Rows of a context in canonical order. */
export function propertiesOf(context: Context): readonly Property[] {
  return [...(BY_CONTEXT.get(context)?.values() ?? [])];
}

/** Contexts in which a word is known, for messages about a misplaced one. */
export function contextsOf(name: string): readonly Context[] {
  return PROPERTIES.filter((property) => property.name === name).flatMap((property) => property.in);
}

/** Place of a property in the canonical order of its context; ends of a hop come after its own facts. */
export function orderOf(context: Context, name: string): number {
  const names = [...(BY_CONTEXT.get(context)?.keys() ?? [])];
  const at = names.indexOf(name);
  if (at < 0) return context === "hop" ? names.indexOf("obstacle") - 0.5 : names.length;
  return at;
}

export function alternatives(arg: ArgSpec): readonly ValueSpec[] {
  return Array.isArray(arg.value) ? (arg.value as readonly ValueSpec[]) : [arg.value as ValueSpec];
}

/** The context a statement's block opens; `defaults` depends on its argument. */
export function blockContext(property: Property, firstWord: string | undefined): Context | undefined {
  if (property.name !== "defaults") return property.block;
  return firstWord === "end" || firstWord === "site" ? `defaults ${firstWord}` : "defaults hop";
}
