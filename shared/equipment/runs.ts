/**
 * Cables and guides run by run, for whoever cuts, lays and labels them. Which there are and how long is the parts list's
 * (`parts-list.ts`), so that both have the same sums; where they end and what is written on them is the wiring's.
 */
import type { Design } from "../design/design.js";
import type { ArrangementFacts } from "../radio/arrangements.js";
import { branchesOf } from "./branches.js";
import { cableLength } from "./cable-run.js";
import { feederPieces, guidePieces } from "./pieces.js";
import type { SiteEnd, SitePlan } from "./site-plan.js";
import { unitId } from "./wiring/ids.js";
import { labelsOf, openLabel, portWords } from "./wiring/labels.js";
import { siteWiring } from "./wiring/site-wiring.js";
import type { Joint, Wiring } from "./wiring/wiring.js";

export interface Run {
  readonly kind: "cable" | "guide";
  readonly hop: string;
  /** Of the catalogue; undefined: nobody has chosen it. */
  readonly entry?: string;
  /** Undefined: of what is still to be chosen. */
  readonly lengthM?: number;
  /** From the antennas' heights, not stated. */
  readonly estimated: boolean;
  /** Undefined: it finds no port at one of its ends. */
  readonly joined?: RunEnds;
  /** Of a cable to a unit that finds no port indoors: what is known of it all the same. */
  readonly open?: OpenEnds;
}

interface OpenEnds {
  readonly cable: string;
  /** Identifier of the unit. */
  readonly unit: string;
  /** Port of the unit. */
  readonly to: string;
  /** From indoors to the unit; a blank stands for the port indoors. */
  readonly labels: readonly [string, string];
}

/** From indoors towards the antenna. */
interface RunEnds {
  /** Number of the cable at its site; undefined: it has none. */
  readonly cable?: string;
  readonly from: string;
  readonly to: string;
  readonly labels?: readonly [string, string];
  readonly proposed: boolean;
}

/** Those of a site, in the order of its hops; cables before guides. */
export function runsOf(plan: SitePlan, design: Pick<Design, "labels">): readonly Run[] {
  const wiring = siteWiring(plan);
  const labels = labelsOf(wiring, design.labels);
  const endsOf = (joint: Joint | undefined): RunEnds | undefined => {
    if (joint === undefined) return undefined;
    const label = labels.get(joint);
    return {
      cable: label?.cable,
      from: portWords(joint.ends[0], wiring),
      to: portWords(joint.ends[1], wiring),
      labels: label?.ends,
      proposed: joint.proposed === true,
    };
  };
  const openOf: OpenOf = (unit) => openEnds(unit, wiring, design.labels);
  const byHop = Map.groupBy(wiring.joints, ({ ends }) =>
    ends.map(({ part }) => wiring.parts.get(part)?.of?.hop).find((hop) => hop !== undefined),
  );
  return plan.ends.flatMap((one) => {
    const { facts, hop } = one;
    if (facts === undefined) return [];
    const joints = byHop.get(hop.name) ?? [];
    return [...cablesAt(one, facts, plan, joints, endsOf, openOf), ...guidesAt(one, facts, joints, endsOf)];
  });
}

type EndsOf = (joint: Joint | undefined) => RunEnds | undefined;
type OpenOf = (unit: string) => OpenEnds | undefined;

function openEnds(unit: string, wiring: Wiring, rule: string | undefined): OpenEnds | undefined {
  const port = wiring.parts.get(unit)?.ports.find(({ type }) => type !== "waveguide" && type !== "supply");
  if (port === undefined) return undefined;
  const at = { part: unit, port: port.name };
  const { cable, ends } = openLabel(at, wiring, rule);
  return { cable, unit, to: portWords(at, wiring), labels: ends };
}

/** One a unit on the structure. */
function cablesAt(
  { hop, end }: SiteEnd,
  facts: ArrangementFacts,
  { equipment }: SitePlan,
  joints: readonly Joint[],
  endsOf: EndsOf,
  openOf: OpenOf,
): Run[] {
  const entry = end.installation?.cable?.name;
  const length = cableLength(end, equipment);
  if (entry === undefined || length === undefined) return [];
  const branches = branchesOf(facts);
  return Array.from({ length: facts.outdoorUnits }, (_, index) => {
    const branch = branches[index]?.name;
    const unit = branch && unitId(hop.name, branch);
    const joint = joints.find(
      ({ by, ends }) => by.kind === "cable" && ends.some(({ part }) => part === unit),
    );
    const open = joint === undefined && unit !== undefined ? openOf(unit) : undefined;
    return { kind: "cable", hop: hop.name, entry, ...length, joined: endsOf(joint), ...(open && { open }) };
  });
}

/** One a piece, of what is stated and of what is still to be chosen. */
function guidesAt(
  { hop, end }: SiteEnd,
  facts: ArrangementFacts,
  joints: readonly Joint[],
  endsOf: EndsOf,
): Run[] {
  const left = joints.filter(({ by }) => by.kind === "waveguide");
  const take = (feeder: string | undefined) => {
    const at = left.findIndex(({ by }) => by.kind === "waveguide" && by.feeder === feeder);
    return at < 0 ? undefined : left.splice(at, 1)[0];
  };
  const pieces = (count: number, entry: string | undefined, lengthM: number | undefined): Run[] =>
    Array.from({ length: count }, () => ({
      kind: "guide",
      hop: hop.name,
      entry,
      lengthM,
      estimated: false,
      joined: endsOf(take(entry)),
    }));
  const stated = feederPieces(hop, end, facts).flatMap(({ stand, count }) => {
    const { feeder, feederLengthM } = stand;
    return feeder === undefined || feederLengthM === undefined
      ? []
      : pieces(count, feeder.name, feederLengthM);
  });
  const open = guidePieces(hop, end, facts)
    .filter(({ lead }) => lead === "piece to choose" || lead === "line to choose")
    .flatMap(({ count }) => pieces(count, undefined, undefined));
  return [...stated, ...open];
}
