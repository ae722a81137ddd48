/** The property table as a whole, and the look-ups on it. The order of the rows is the canonical order of a block. */
import { acceptRows } from "./table/accept.js";
import { antennaRows } from "./table/antenna.js";
import { asBuiltRows, measuredRows } from "./table/as-built.js";
import { cableRows } from "./table/cable.js";
import { climateRows } from "./table/climate.js";
import { couplerRows, feederRows } from "./table/coupler.js";
import { deliveryRows } from "./table/delivery.js";
import { demandRows, trafficAtSiteRows } from "./table/demand.js";
import { endRows, installationRows } from "./table/end.js";
import { hopRows } from "./table/hop.js";
import { indoorRows } from "./table/indoor.js";
import { interferenceAtSiteRows, interferenceRows } from "./table/interference.js";
import { licenceRows } from "./table/licence.js";
import { defaultsRows, networkRows } from "./table/network.js";
import { objectiveRows } from "./table/objective.js";
import { othersRows } from "./table/others.js";
import { partRows } from "./table/part.js";
import { pathRows } from "./table/path.js";
import { planRows } from "./table/plan.js";
import { policyRows } from "./table/policy.js";
import { radioRows } from "./table/radio.js";
import { antennaPatternRows, powerControlRows, spectrumRows } from "./table/radio-spectrum.js";
import { radioUnitRows } from "./table/radio-unit.js";
import { sheetRows } from "./table/sheets.js";
import { siteRows } from "./table/site.js";
import { siteEquipmentRows, structureRows } from "./table/site-equipment.js";
import { labelRows, siteWiringRows } from "./table/site-wiring.js";
import { stateRows } from "./table/state.js";
import { stockRows } from "./table/stock.js";
import { trafficRows } from "./table/traffic.js";
import type { ArgSpec, Context, Property, ValueSpec } from "./types.js";

export const PROPERTIES: readonly Property[] = [
  ...networkRows,
  ...climateRows,
  ...interferenceRows,
  ...othersRows,
  ...trafficRows,
  ...objectiveRows,
  ...defaultsRows,
  ...policyRows,
  ...stockRows,
  ...siteRows,
  ...siteEquipmentRows,
  ...siteWiringRows,
  ...interferenceAtSiteRows,
  ...trafficAtSiteRows,
  ...structureRows,
  ...labelRows,
  ...radioRows,
  ...spectrumRows,
  ...antennaRows,
  ...antennaPatternRows,
  ...couplerRows,
  ...feederRows,
  ...radioUnitRows,
  ...partRows,
  ...cableRows,
  ...indoorRows,
  ...planRows,
  ...hopRows,
  ...powerControlRows,
  ...demandRows,
  ...stateRows,
  ...pathRows,
  ...acceptRows,
  ...measuredRows,
  ...endRows,
  ...installationRows,
  ...deliveryRows,
  ...asBuiltRows,
  ...licenceRows,
  ...sheetRows,
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

/** The property of a context that a word of the trade means; written in any case. */
export function propertyAlsoCalled(context: Context, word: string): Property | undefined {
  const plain = word.toLowerCase();
  return propertiesOf(context).find(({ alsoCalled }) => alsoCalled?.includes(plain));
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
  return firstWord === "end" || firstWord === "site" || firstWord === "demand"
    ? `defaults ${firstWord}`
    : "defaults hop";
}
