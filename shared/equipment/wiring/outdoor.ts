/** The outdoor side of an end of a hop: units, cables to them, couplers, guides, antennas. */
import { address } from "../../design/address.js";
import type { Antenna, CouplerKind } from "../../design/catalogue.js";
import type { Hop } from "../../design/design.js";
import type { ArrangementFacts } from "../../radio/arrangements.js";
import { ARM_NAMES, armCount, type Branch, sidesOf } from "../branches.js";
import { cableLength } from "../cable-run.js";
import { type EthernetFeed, ethernetFeeds } from "../ethernet-feeds.js";
import type { IfPortUse } from "../if-ports.js";
import { isAllIndoor, leadTo } from "../mounting.js";
import type { SiteEnd, SitePlan } from "../site-plan.js";
import { branchesAt, type Stand, standsOf } from "../stands.js";
import { sharedWithPartner } from "../structure-load.js";
import { type UnitSetting, unitsOf } from "../units.js";
import type { Assembly } from "./assembly.js";
import { cardId, unitId } from "./ids.js";
import type { UnitTraffic } from "./indoor.js";
import { SUPPLY, takesOwnFeed } from "./supply.js";
import type { JoinedBy, PortRef, WiredPart, WiredPort } from "./wiring.js";

/** Everything of a hop at its site; what its all-outdoor units want of the traffic ports is returned. */
export function addEnd(one: SiteEnd, served: Served, to: Assembly): readonly UnitTraffic[] {
  const { hop, end, facts } = one;
  if (facts === undefined) return [];
  const side = sidesOf(hop)[end === hop.ends[0] ? 0 : 1];
  const branches = branchesAt(end, facts, side);
  const units = unitsOf(hop, end, facts);
  const here: Here = { one, served, facts, branches, units, to };
  const traffic = branches.flatMap((branch, index) => addUnit(here, branch, index));
  for (const [index, stand] of standsOf(end, facts).entries()) addStand(here, stand, index + 1);
  for (const { name, antenna } of branches)
    if (antenna > standsOf(end, facts).length)
      to.loose({ part: unitId(hop.name, name), port: ANTENNA, lacks: "arm" });
  return traffic;
}

/** What the site plan gives to which unit. */
export interface Served {
  readonly plan: SitePlan;
  /** By hop and branch, see `unitId`. */
  readonly ifPorts: ReadonlyMap<string, IfPortUse>;
  readonly feeds: ReadonlyMap<SiteEnd, EthernetFeed>;
}

export function servedBy(plan: SitePlan): Served {
  return {
    plan,
    ifPorts: new Map(plan.ifPorts.uses.map((use) => [unitId(use.hop, use.branch), use])),
    feeds: new Map(ethernetFeeds(plan).map((feed) => [feed.end, feed])),
  };
}

interface Here {
  readonly one: SiteEnd;
  readonly served: Served;
  readonly facts: ArrangementFacts;
  readonly branches: readonly Branch[];
  readonly units: readonly UnitSetting[];
  readonly to: Assembly;
}

const ANTENNA = "antenna";
const IF = "IF";
const TRAFFIC = "traffic";

function addUnit({ one, served, facts, to }: Here, { name }: Branch, index: number): UnitTraffic[] {
  const { hop } = one;
  const id = unitId(hop.name, name);
  const type = hop.radio?.unit?.port;
  const hasIf = facts.ifCables > 0;
  const ports: WiredPort[] = [{ name: ANTENNA, type: "waveguide" }];
  if (hasIf) ports.unshift({ name: IF, type: "IF" });
  else if (type !== undefined) ports.unshift({ name: TRAFFIC, type });
  if (takesOwnFeed(one)) ports.push({ name: SUPPLY, type: SUPPLY });
  to.part({
    id,
    kind: "unit",
    name: hop.radio?.name,
    title: hop.radio?.title,
    at: hop.radio === undefined ? address("hop", hop.name) : address("hop", hop.name, "radio"),
    of: { hop: hop.name, branch: name },
    ports,
  });
  if (hasIf) {
    joinToCard({ one, served, to }, name);
    return [];
  }
  if (type === undefined || facts.outdoorUnits === 0) return [];
  const card = served.feeds.get(one)?.cards[index];
  const poweredBy = card && cardId(card.chassis.name, card.slot);
  const from = { part: id, port: TRAFFIC };
  const by = cableOf(one, served.plan);
  return [{ key: `${hop.name} ${name}`, from, type, by, hop: hop.name, branch: name, poweredBy }];
}

function joinToCard({ one, served, to }: Pick<Here, "one" | "served" | "to">, branch: string): void {
  const { hop } = one;
  const unit = { part: unitId(hop.name, branch), port: IF };
  const use = served.ifPorts.get(unit.part);
  if (use === undefined) {
    to.loose({ ...unit, lacks: hasIndoorUnit(served.plan) ? "IF port" : "indoor unit" });
    return;
  }
  const { card, port, automatic } = use;
  to.joint([{ part: cardId(card.chassis.name, card.slot), port: String(port) }, unit], {
    by: cableOf(one, served.plan),
    carries: { kind: "hop", hop: hop.name, branch },
    proposed: automatic,
  });
}

function hasIndoorUnit({ equipment }: SitePlan): boolean {
  return (equipment?.chassis.length ?? 0) > 0;
}

function cableOf({ end }: SiteEnd, { equipment }: SitePlan): JoinedBy {
  const cable = end.installation?.cable;
  return {
    kind: "cable",
    cable: cable?.name,
    sort: cable?.kind ?? "coaxial",
    ...cableLength(end, equipment),
  };
}

/** One antenna of the end with what joins the units on it: coupler, branching network, guide. */
function addStand(here: Here, stand: Stand, number: number): void {
  const { one, facts, branches, to } = here;
  const { hop } = one;
  const own = branches.flatMap((branch, index) =>
    branch.antenna === number ? [{ branch, unit: here.units[index]! }] : [],
  );
  const antenna = antennaPart(here, stand, number, own);
  let ends: readonly Way[] = own.map(({ branch, unit }) => ({
    at: { part: unitId(hop.name, branch.name), port: ANTENNA },
    branches: [branch.name],
    pole: poleOf(unit, branch, facts),
  }));
  if (stand.coupler !== undefined) ends = throughCoupler(here, stand, own, ends);
  if (hop.radio?.unit?.branching !== undefined && isAllIndoor(hop))
    ends = throughBranching(here, stand, own, ends);
  if (antenna === undefined) {
    for (const { at } of ends) to.loose({ ...at, lacks: "antenna" });
    return;
  }
  to.part(antenna);
  const taken = new Set<string>();
  for (const { at, branches: names, pole } of ends) {
    const port = antennaPort(antenna, pole, facts);
    if (taken.has(port)) {
      to.loose({ ...at, lacks: "arm" });
      continue;
    }
    taken.add(port);
    to.joint([at, { part: antenna.id, port }], {
      by: guideTo(hop, one, stand),
      carries: { kind: "hop", hop: hop.name, branch: names.length === 1 ? names[0] : undefined },
      proposed: stand.feeder === undefined && guideTo(hop, one, stand).kind === "waveguide",
    });
  }
}

interface Way {
  readonly at: PortRef;
  readonly branches: readonly string[];
  readonly pole: string;
}

/** The polarization that a branch is sent in, where it is known. */
function poleOf({ polarization }: UnitSetting, branch: Branch, facts: ArrangementFacts): string {
  if (!facts.dualPolarized && polarization === undefined) return "port";
  // Both are called slant, and stand across each other.
  if (facts.dualPolarized && polarization === "slant")
    return branch.polarization === 1 ? "first slant" : "second slant";
  return polarization ?? (branch.polarization === 1 ? "first polarization" : "second polarization");
}

type Own = readonly { readonly branch: Branch; readonly unit: UnitSetting }[];

function throughCoupler(
  { one, facts, to }: Here,
  { coupler, couplerFact }: Stand,
  own: Own,
  ways: readonly Way[],
): Way[] {
  const { hop, end } = one;
  const id = `coupler ${hop.name} ${couplerFact}`;
  // One that no unit uses is bolted to its antenna all the same.
  const poles = ways.length === 0 ? ["port"] : [...new Set(ways.map(({ pole }) => pole))];
  const armsOf = (kind: CouplerKind | undefined) =>
    own.map(({ branch, unit }) => armName(branch, poleOf(unit, branch, facts), poles.length, kind));
  const told = armsOf(coupler!.kind);
  // A kind that does not suit counts as the usual one, with all of its arms: a rule tells it.
  const arms = new Set(told).size === told.length ? told : armsOf(undefined);
  const unused = Math.max(0, armCount(coupler!.kind ?? "none") - arms.length);
  to.part({
    id,
    kind: "coupler",
    name: coupler!.name,
    title: coupler!.title,
    at: address("hop", hop.name, end.site.name, couplerFact),
    of: { hop: hop.name },
    ports: [
      ...arms.map((name): WiredPort => ({ name, type: "waveguide" })),
      ...Array.from(
        { length: unused },
        (_, k): WiredPort => ({ name: `unused arm ${k + 1}`, type: "waveguide", terminated: true }),
      ),
      ...poles.map((pole): WiredPort => ({ name: commonName(pole, poles.length), type: "waveguide" })),
    ],
  });
  for (const [index, way] of ways.entries())
    to.joint([way.at, { part: id, port: arms[index]! }], {
      by: { kind: "flange" },
      carries: { kind: "hop", hop: hop.name, branch: way.branches[0] },
    });
  return poles.map((pole) => ({
    at: { part: id, port: commonName(pole, poles.length) },
    branches: ways.filter((way) => way.pole === pole).flatMap(({ branches }) => branches),
    pole,
  }));
}

function armName({ arm, name }: Branch, pole: string, poles: number, kind?: CouplerKind): string {
  // The arms of an orthomode transducer are told by their polarization alone.
  const byArm = kind === "omt" || arm === "none" ? undefined : ARM_NAMES[arm];
  const words = [byArm, poles > 1 ? pole : undefined];
  const said = words.filter((word) => word !== undefined).join(", ");
  return said === "" ? name : said;
}

function commonName(pole: string, poles: number): string {
  return poles === 1 ? ANTENNA : `antenna, ${pole}`;
}

/** Carriers of an all-indoor radio in the order in which the network of an antenna takes them off. */
function throughBranching({ one, to }: Here, { fact }: Stand, own: Own, ways: readonly Way[]): Way[] {
  const { hop } = one;
  const id = `branching ${hop.name} ${fact}`;
  const places = ways.map((_, index) => `position ${own[index]?.branch.position ?? index + 1}`);
  const poles = [...new Set(ways.map(({ pole }) => pole))];
  to.part({
    id,
    kind: "branching",
    name: hop.radio?.name,
    at: address("hop", hop.name, "radio"),
    of: { hop: hop.name },
    ports: [
      ...places.map((name): WiredPort => ({ name, type: "waveguide" })),
      ...poles.map((pole): WiredPort => ({ name: commonName(pole, poles.length), type: "waveguide" })),
    ],
  });
  for (const [index, way] of ways.entries())
    to.joint([way.at, { part: id, port: places[index]! }], {
      by: { kind: "flange" },
      carries: {
        kind: "hop",
        hop: hop.name,
        branch: way.branches.length === 1 ? way.branches[0] : undefined,
      },
    });
  return poles.map((pole) => ({
    at: { part: id, port: commonName(pole, poles.length) },
    branches: ways.filter((way) => way.pole === pole).flatMap(({ branches }) => branches),
    pole,
  }));
}

/** Both bands of a pair may hang on one antenna: it is the same part then, the low band's hop has it. */
function antennaPart(
  { one, served, facts }: Here,
  { antenna, fact }: Stand,
  number: number,
  own: Own,
): WiredPart | undefined {
  const { hop, end } = one;
  if (antenna === undefined) return undefined;
  const shared = number === 1 && sharedWithPartner(one, served.plan);
  const owner = shared ? hop.pairedWith! : hop.name;
  const names = antenna.mount?.secondBand === undefined ? polesOf(antenna, own, facts) : Object.values(BANDS);
  return {
    id: `antenna ${owner} ${fact}`,
    kind: "antenna",
    name: antenna.name,
    title: antenna.title,
    at: address("hop", owner, end.site.name, fact),
    of: { hop: owner },
    ports: names.map((name) => ({ name, type: "waveguide" })),
  };
}

const BANDS = { low: "low band", high: "high band" } as const;

function polesOf({ polarizations }: Antenna, own: Own, facts: ArrangementFacts): readonly string[] {
  const poles = [...new Set(own.map(({ branch, unit }) => poleOf(unit, branch, facts)))];
  return poles.length > 1 || (polarizations === "dual" && poles.length > 0) ? poles : ["port"];
}

function antennaPort({ ports }: WiredPart, pole: string, facts: ArrangementFacts): string {
  if (ports.some(({ name }) => name === BANDS.high)) return BANDS[facts.bandOfPair ?? "low"];
  return ports.length === 1 ? ports[0]!.name : pole;
}

function guideTo(hop: Hop, { end }: SiteEnd, stand: Stand): JoinedBy {
  switch (leadTo(hop, end, stand)) {
    case "feeder":
      return { kind: "waveguide", feeder: stand.feeder?.name, lengthM: stand.feederLengthM };
    case "none":
      return { kind: "flange" };
    case "piece to choose":
    case "line to choose":
      return { kind: "waveguide" };
  }
}
