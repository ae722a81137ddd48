/** Units, cables, chassis, cards and what stands at a site: from facts to the plain data of the design. */
import type {
  AntennaMount,
  Battery,
  Cable,
  CableKind,
  Card,
  CardKind,
  Chassis,
  Installation,
  InstalledChassis,
  LineFacts,
  Mount,
  PortType,
  SiteEquipment,
  SlotKind,
  SpareRule,
  SubBand,
  UnitFacts,
} from "../../shared/design/equipment.js";
import { type Fact, factNamed, factsNamed, numberOf, quantityOf, wordOf } from "../facts/fact.js";
import type { Declaration } from "../model/source-file.js";
import { rangeOf } from "./ranges.js";

/** What a radio states of its unit; undefined when it states nothing. */
export function unitOf(facts: readonly Fact[]): UnitFacts | undefined {
  const limit = factNamed(facts, "if-limit");
  const lossDb = quantityOf(limit, "loss");
  const frequencyHz = quantityOf(limit, "frequency");
  const branching = factNamed(facts, "branching");
  const filterDb = quantityOf(branching, "filter");
  const passDb = quantityOf(branching, "pass");
  return unlessEmpty({
    construction: wordOf(factNamed(facts, "construction"), "value") as UnitFacts["construction"],
    interface: wordOf(factNamed(facts, "interface"), "name"),
    subBands: factsNamed(facts, "sub-band").flatMap(subBandOf),
    drawsW: quantityOf(factNamed(facts, "draws"), "power"),
    weightKg: quantityOf(factNamed(facts, "weight"), "mass"),
    rssi: factsNamed(facts, "rssi").flatMap((fact) => {
      const levelDbm = quantityOf(fact, "level");
      const voltageV = quantityOf(fact, "voltage");
      return levelDbm === undefined || voltageV === undefined ? [] : [{ levelDbm, voltageV }];
    }),
    xpic: yes(factNamed(facts, "xpic")),
    ifLimit: lossDb === undefined || frequencyHz === undefined ? undefined : { lossDb, frequencyHz },
    leastSupplyV: quantityOf(factNamed(facts, "least-supply"), "voltage"),
    branching: filterDb === undefined || passDb === undefined ? undefined : { filterDb, passDb },
    port: wordOf(factNamed(facts, "port"), "type") as PortType | undefined,
  });
}

function subBandOf(fact: Fact): SubBand[] {
  const name = wordOf(fact, "name");
  const [low, lowTo, high, highTo] = ["low", "lowTo", "high", "highTo"].map((arg) => quantityOf(fact, arg));
  if (name === undefined || low === undefined || lowTo === undefined) return [];
  if (high === undefined || highTo === undefined) return [];
  return [{ name, low: { fromHz: low, toHz: lowTo }, high: { fromHz: high, toHz: highTo } }];
}

export function mountOf(facts: readonly Fact[]): AntennaMount | undefined {
  return unlessEmpty({
    interface: wordOf(factNamed(facts, "interface"), "name"),
    direct: yes(factNamed(facts, "direct-mounting")),
    takes: wordOf(factNamed(facts, "takes"), "polarization") as AntennaMount["takes"],
    weightKg: quantityOf(factNamed(facts, "weight"), "mass"),
    windCoefficient: numberOf(factNamed(facts, "wind-coefficient"), "value"),
    secondBand: rangeOf(factNamed(facts, "second-band")),
  });
}

export function cableOf(entry: Declaration, facts: readonly Fact[]): Cable {
  return {
    ...named(entry),
    kind: wordOf(factNamed(facts, "kind"), "value") as CableKind | undefined,
    loss: factsNamed(facts, "loss").flatMap((fact) => {
      const lossDbPerM = quantityOf(fact, "value");
      return lossDbPerM === undefined ? [] : [{ lossDbPerM, frequencyHz: quantityOf(fact, "at") }];
    }),
    loopOhmPerM: quantityOf(factNamed(facts, "loop-resistance"), "value"),
    longestM: quantityOf(factNamed(facts, "longest"), "length"),
    connector: wordOf(factNamed(facts, "connector"), "name"),
    line: lineOf(facts),
  };
}

/** What a cable or feeder is to the structure; undefined when it states nothing of it. */
export function lineOf(facts: readonly Fact[]): LineFacts | undefined {
  return unlessEmpty({
    kgPerM: quantityOf(factNamed(facts, "weight-per-length"), "value"),
    diameterM: quantityOf(factNamed(facts, "diameter"), "value"),
  });
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
export function installationOf(
  facts: readonly Fact[],
  cableNamed: (name: string) => Cable | undefined,
): Installation | undefined {
  const cable = factNamed(facts, "cable");
  const name = wordOf(cable, "cable");
  return unlessEmpty({
    mounting: wordOf(factNamed(facts, "mounting"), "value") as Installation["mounting"],
    subBand: wordOf(factNamed(facts, "unit-sub-band"), "name"),
    cable: name === undefined ? undefined : cableNamed(name),
    cableLengthM: quantityOf(cable, "length"),
    ifPorts: factsNamed(facts, "if-port").flatMap((fact) => {
      const slot = numberOf(fact, "slot");
      const port = numberOf(fact, "port");
      return slot === undefined || port === undefined
        ? []
        : [{ slot, port, chassis: wordOf(fact, "chassis") }];
    }),
  });
}

export function chassisOf(entry: Declaration, facts: readonly Fact[]): Chassis {
  return {
    ...named(entry),
    rackUnits: quantityOf(factNamed(facts, "height"), "units"),
    slots: factsNamed(facts, "slot").flatMap((fact) => {
      const from = numberOf(fact, "from");
      const kind = wordOf(fact, "kind") as SlotKind | undefined;
      return from === undefined || kind === undefined
        ? []
        : [{ from, to: Math.max(from, numberOf(fact, "to") ?? from), kind }];
    }),
    supplyW: quantityOf(factNamed(facts, "supply"), "power"),
    drawsW: quantityOf(factNamed(facts, "draws"), "power"),
    heatLimitW: quantityOf(factNamed(facts, "heat-limit"), "power"),
    air: wordOf(factNamed(facts, "air"), "path") as Chassis["air"],
    controllerBuiltIn: factNamed(facts, "controller") !== undefined ? true : undefined,
    ports: chassisPortsOf(facts),
    weightKg: quantityOf(factNamed(facts, "weight"), "mass"),
  };
}

function chassisPortsOf(facts: readonly Fact[]): Chassis["ports"] {
  const ports = factsNamed(facts, "ports").flatMap((fact) => {
    const count = numberOf(fact, "count");
    const type = wordOf(fact, "type") as PortType | undefined;
    return count === undefined || type === undefined ? [] : [{ count, type }];
  });
  return ports.length > 0 ? ports : undefined;
}

export function cardOf(entry: Declaration, facts: readonly Fact[]): Card {
  return {
    ...named(entry),
    kind: wordOf(factNamed(facts, "kind"), "value") as CardKind | undefined,
    slotKind: wordOf(factNamed(facts, "slots"), "kind") as SlotKind | undefined,
    ports: factsNamed(facts, "ports").flatMap((fact) => {
      const count = numberOf(fact, "count");
      const type = wordOf(fact, "type") as PortType | undefined;
      return count === undefined || type === undefined
        ? []
        : [{ count, type, powered: wordOf(fact, "powered") !== undefined }];
    }),
    xpic: yes(factNamed(facts, "xpic")),
    pairs: wordOf(factNamed(facts, "pairs"), "value") as Card["pairs"],
    powerBudgetW: quantityOf(factNamed(facts, "power-budget"), "power"),
    drawsW: quantityOf(factNamed(facts, "draws"), "power"),
    weightKg: quantityOf(factNamed(facts, "weight"), "mass"),
  };
}

/** What the look-ups of a site's equipment need. */
export interface IndoorLookup {
  chassis(name: string): Chassis | undefined;
  card(name: string): Card | undefined;
}

/** What stands at a site; undefined when nothing of it is stated. */
export function siteEquipmentOf(
  site: string,
  facts: readonly Fact[],
  lookup: IndoorLookup,
): SiteEquipment | undefined {
  const wind = factNamed(facts, "wind");
  const basicSpeedMPerS = quantityOf(wind, "speed");
  const stated = unlessEmpty({
    rackUnits: quantityOf(factNamed(facts, "rack"), "free"),
    cableRunM: quantityOf(factNamed(facts, "cable-run"), "length"),
    chassis: factsNamed(facts, "chassis").map((fact, index) => installedOf(fact, index, lookup)),
    plantW: quantityOf(factNamed(facts, "plant"), "power"),
    battery: batteryOf(factNamed(facts, "battery")),
    alarms: factsNamed(facts, "alarm").flatMap((fact) => {
      const input = numberOf(fact, "input");
      return input === undefined
        ? []
        : [{ input, title: wordOf(fact, "title") ?? "", closed: wordOf(fact, "state") !== "open" }];
    }),
    services: factsNamed(facts, "service").flatMap((fact) => {
      const count = numberOf(fact, "count");
      const type = wordOf(fact, "type") as PortType | undefined;
      return count === undefined || type === undefined
        ? []
        : [{ title: wordOf(fact, "title") ?? "", count, type }];
    }),
    wind:
      basicSpeedMPerS === undefined
        ? undefined
        : { basicSpeedMPerS, terrain: TERRAIN[wordOf(wind, "terrain") ?? "country"] ?? "II" },
    mounts: mountsOf(facts),
    windLimitN: quantityOf(factNamed(facts, "wind-limit"), "force"),
    weightLimitKg: quantityOf(factNamed(facts, "weight-limit"), "mass"),
  });
  return stated && { site, ...stated };
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

function yes(fact: Fact | undefined): boolean | undefined {
  const word = wordOf(fact, "value");
  return word === undefined ? undefined : word === "yes";
}

function named(entry: Declaration): { readonly name: string; readonly title?: string } {
  return { name: entry.name, title: wordOf(entry.fact, "title") };
}

/** An object in which nothing is stated says nothing; it would only make every result depend on it. */
function unlessEmpty<T extends object>(stated: T): T | undefined {
  const says = Object.values(stated).some((value) =>
    Array.isArray(value) ? value.length > 0 : value !== undefined,
  );
  return says ? stated : undefined;
}
