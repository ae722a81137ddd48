/** Units, cables, chassis, cards and what stands at a site: from facts to the plain data of the design. */
import type {
  Battery,
  Cable,
  Card,
  Chassis,
  Delivery,
  Feed,
  Installation,
  InstalledChassis,
  Mount,
  PartKind,
  PortType,
  Service,
  SiteEquipment,
  SlotKind,
  SpareRule,
  SubBand,
  UnitFacts,
} from "../../shared/design/equipment.js";
import { type Fact, factNamed, factsNamed, numberOf, quantityOf, wordOf } from "../facts/fact.js";
import type { Declaration } from "../model/source-file.js";
import { entriesOf, fieldsOf, type Names } from "./fields.js";
import { named, unlessEmpty } from "./stated.js";

/** What a radio states of its unit; undefined when it states nothing. */
export function unitOf(facts: readonly Fact[], names: Names): UnitFacts | undefined {
  return unlessEmpty({
    ...fieldsOf("unit", facts, names),
    subBands: factsNamed(facts, "sub-band").flatMap(subBandOf),
    rssi: entriesOf("rssi", facts, "rssi", names),
  });
}

function subBandOf(fact: Fact): SubBand[] {
  const name = wordOf(fact, "name");
  const [low, lowTo, high, highTo] = ["low", "lowTo", "high", "highTo"].map((arg) => quantityOf(fact, arg));
  if (name === undefined || low === undefined || lowTo === undefined) return [];
  if (high === undefined || highTo === undefined) return [];
  return [{ name, low: { fromHz: low, toHz: lowTo }, high: { fromHz: high, toHz: highTo } }];
}

export function cableOf(entry: Declaration, facts: readonly Fact[], names: Names): Cable {
  return {
    ...named(entry),
    ...fieldsOf("cable", facts, names),
    loss: entriesOf("loss", facts, "loss", names),
    line: unlessEmpty(fieldsOf("line", facts, names)),
  };
}

function mountsOf(facts: readonly Fact[]): readonly Mount[] | undefined {
  const mounts = factsNamed(facts, "mount").flatMap((fact): Mount[] => {
    const massKg = quantityOf(fact, "mass");
    const title = wordOf(fact, "title") ?? "";
    return massKg === undefined
      ? []
      : [{ title, massKg, areaM2: quantityOf(fact, "area"), heightM: quantityOf(fact, "height") }];
  });
  return mounts.length > 0 ? mounts : undefined;
}

/** How an end is mounted and connected; undefined when it states nothing of it. */
export function installationOf(facts: readonly Fact[], names: Names): Installation | undefined {
  const deliveries = deliveriesOf(facts);
  const brackets = factsNamed(facts, "bracket").map((fact) => ({
    title: wordOf(fact, "title") ?? "",
    count: numberOf(fact, "count") ?? 1,
  }));
  return unlessEmpty({
    ...fieldsOf("installation", facts, names),
    ...(brackets.length > 0 && { brackets }),
    ...(deliveries.length > 0 && { deliveries }),
    ifPorts: entriesOf("claim", facts, "if-port", names),
  });
}

function deliveriesOf(facts: readonly Fact[]): readonly Delivery[] {
  return factsNamed(facts, "delivery").flatMap((fact): Delivery[] => {
    const state = wordOf(fact, "progress");
    if (state !== "ordered" && state !== "delivered") return [];
    const part = wordOf(fact, "part");
    return [
      {
        state,
        date: wordOf(fact, "date"),
        of: part?.replaceAll("-", " ") as PartKind | undefined,
        remark: wordOf(fact, "remark"),
      },
    ];
  });
}

export function chassisOf(entry: Declaration, facts: readonly Fact[], names: Names): Chassis {
  const ports = entriesOf("port", facts, "ports", names);
  const needs = entriesOf("need", facts, "needs", names);
  return {
    ...named(entry),
    ...fieldsOf("chassis", facts, names),
    slots: factsNamed(facts, "slot").flatMap((fact) => {
      const from = numberOf(fact, "from");
      const kind = wordOf(fact, "kind") as SlotKind | undefined;
      return from === undefined || kind === undefined
        ? []
        : [{ from, to: Math.max(from, numberOf(fact, "to") ?? from), kind }];
    }),
    needs: needs.length > 0 ? needs : undefined,
    controllerBuiltIn: factNamed(facts, "controller") !== undefined ? true : undefined,
    ports: ports.length > 0 ? ports : undefined,
  };
}

export function cardOf(entry: Declaration, facts: readonly Fact[], names: Names): Card {
  const drives = factsNamed(facts, "drives").flatMap((fact) => wordOf(fact, "generation") ?? []);
  const widths = factsNamed(facts, "channel-width").flatMap((fact) => {
    const widthHz = quantityOf(fact, "width");
    const otherHz = quantityOf(fact, "to") ?? widthHz;
    if (widthHz === undefined || otherHz === undefined) return [];
    return [{ fromHz: Math.min(widthHz, otherHz), toHz: Math.max(widthHz, otherHz) }];
  });
  return {
    ...named(entry),
    ...fieldsOf("card", facts, names),
    drives: drives.length > 0 ? drives : undefined,
    channelWidths: widths.length > 0 ? widths : undefined,
    supplyBuiltIn: factNamed(facts, "supply") !== undefined ? true : undefined,
    ports: factsNamed(facts, "ports").flatMap((fact) => {
      const count = numberOf(fact, "count");
      const type = wordOf(fact, "type") as PortType | undefined;
      return count === undefined || type === undefined
        ? []
        : [{ count, type, powered: wordOf(fact, "powered") !== undefined }];
    }),
  };
}

/** What the look-ups of a site's equipment need. */
interface IndoorLookup extends Names {
  chassis(name: string): Chassis | undefined;
  card(name: string): Card | undefined;
}

/** What stands at a site; undefined when nothing of it is stated. */
export function siteEquipmentOf(
  site: string,
  facts: readonly Fact[],
  lookup: IndoorLookup,
): SiteEquipment | undefined {
  const deliveries = deliveriesOf(facts);
  const wind = factNamed(facts, "wind");
  const basicSpeedMPerS = quantityOf(wind, "speed");
  const stated = unlessEmpty({
    ...fieldsOf("equipment", facts, lookup),
    chassis: factsNamed(facts, "chassis").map((fact, index) => installedOf(fact, index, lookup)),
    battery: batteryOf(factNamed(facts, "battery")),
    alarms: factsNamed(facts, "alarm").flatMap((fact) => {
      const input = numberOf(fact, "input");
      return input === undefined
        ? []
        : [{ input, title: wordOf(fact, "title") ?? "", closed: wordOf(fact, "state") !== "open" }];
    }),
    ...joinedAt(facts, lookup),
    wind:
      basicSpeedMPerS === undefined
        ? undefined
        : { basicSpeedMPerS, terrain: TERRAIN[wordOf(wind, "terrain") ?? "country"] ?? "II" },
    mounts: mountsOf(facts),
    ...(deliveries.length > 0 && { deliveries }),
  });
  return stated && { site, ...stated };
}

/** What is joined to what, as far as it is stated. */
function joinedAt(
  facts: readonly Fact[],
  names: Names,
): Pick<SiteEquipment, "services" | "feeds" | "baluns"> {
  const feeds = factsNamed(facts, "feed").flatMap((fact): Feed[] => {
    const name = wordOf(fact, "name");
    const fuse = numberOf(fact, "fuse");
    if (name === undefined || fuse === undefined) return [];
    return [
      {
        name,
        fuse,
        ratingA: quantityOf(fact, "rating"),
        slot: numberOf(fact, "slot"),
        chassis: wordOf(fact, "chassis"),
        hop: wordOf(fact, "hop"),
      },
    ];
  });
  const baluns = factsNamed(facts, "balun").flatMap((fact) => {
    const count = numberOf(fact, "count");
    return count === undefined ? [] : [{ title: wordOf(fact, "title") ?? "", count }];
  });
  return {
    services: factsNamed(facts, "service").flatMap((fact): Service[] => {
      const count = numberOf(fact, "count");
      const type = wordOf(fact, "type") as PortType | undefined;
      if (count === undefined || type === undefined) return [];
      const ports = entriesOf("claim", fact.facts, "port", names);
      return [{ title: wordOf(fact, "title") ?? "", count, type, ...(ports.length > 0 && { ports }) }];
    }),
    ...(feeds.length > 0 && { feeds }),
    ...(baluns.length > 0 && { baluns }),
  };
}

const TERRAIN: Readonly<Record<string, "0" | "I" | "II" | "III" | "IV">> = {
  sea: "0",
  level: "I",
  country: "II",
  suburb: "III",
  city: "IV",
};

function installedOf(fact: Fact, index: number, lookup: IndoorLookup): InstalledChassis {
  const named = <T>(word: string | undefined, find: (name: string) => T | undefined) =>
    word === undefined ? undefined : find(word);
  const cardOfFact = (inner: Fact) => named(wordOf(inner, "card"), (name) => lookup.card(name));
  return {
    name: wordOf(fact, "as") ?? String(index + 1),
    chassis: named(wordOf(fact, "chassis"), (name) => lookup.chassis(name)),
    row: wordOf(fact, "row"),
    slots: factsNamed(fact.facts, "slot").flatMap((inner) => {
      const slot = numberOf(inner, "number");
      return slot === undefined ? [] : [{ slot, card: cardOfFact(inner) }];
    }),
    loose: factsNamed(fact.facts, "card").flatMap((inner) => {
      const card = cardOfFact(inner);
      return card === undefined ? [] : [{ card, count: numberOf(inner, "count") ?? 1 }];
    }),
    controllersProtected: factNamed(fact.facts, "protect") !== undefined,
  };
}

function batteryOf(fact: Fact | undefined): Battery | undefined {
  const capacityAh = quantityOf(fact, "capacity");
  if (capacityAh === undefined) return undefined;
  const depthPercent = quantityOf(fact, "depth");
  return {
    capacityAh,
    nominalV: quantityOf(fact, "voltage") ?? 48,
    depthOfDischarge: depthPercent === undefined ? undefined : depthPercent / 100,
    autonomyH: quantityOf(fact, "autonomy"),
  };
}

export function spareRulesOf(facts: readonly Fact[]): readonly SpareRule[] {
  return factsNamed(facts, "spare").flatMap((fact) => {
    const kind = wordOf(fact, "kind");
    const sharePercent = quantityOf(fact, "share");
    return kind === undefined || sharePercent === undefined
      ? []
      : [{ kind, sharePercent, least: numberOf(fact, "least") ?? 0 }];
  });
}
