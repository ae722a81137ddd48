/** The page of one hop: what it is, whether it does what is asked, and what every figure rests on. */

import type { Design, Hop } from "../../design/design.js";
import { stateWords } from "../../design/state.js";
import type { SitePlan } from "../../equipment/site-plan.js";
import type { DirectionResult } from "../../evaluate/account/level-result.js";
import { isAbout } from "../../evaluate/account/note-facts.js";
import type { HopResult } from "../../evaluate/account/result.js";
import { polarizationWords } from "../../evaluate/level/polarization.js";
import { obstacleTitle } from "../../evaluate/path/profile.js";
import { outageBounded } from "../../format/bounds.js";
import { dbm, decibels, kilometres, metres } from "../../format/numbers.js";
import type { Caused } from "../../interference/caused.js";
import type { InterferenceAt } from "../../interference/receiver-result.js";
import { arrangementWords } from "../../radio/arrangement-pairs.js";
import type { TerrainProfile } from "../../terrain/profile.js";
import { stretchTold } from "../../words/gaps.js";
import { lackClause } from "../../words/lacks.js";
import { shown } from "../../words/message.js";
import { carrierTables, severalUnits } from "../carriers.js";
import {
  type Block,
  type Fact,
  type Inline,
  type Page,
  type ReportFinding,
  type Section,
  type Span,
  sentence,
  type TableRow,
} from "../document/document.js";
import { drawLevels } from "../draw/levels.js";
import { drawProfile, NARROW } from "../draw/profile.js";
import { sumDbm, worstAt } from "../interference.js";
import { levelTables, type Table } from "../level-diagram.js";
import { asBuiltSection } from "./as-built.js";
import { availabilitySection } from "./availability.js";
import { cautions } from "./cautions.js";
import { clearanceTable } from "./clearance.js";
import { endsTable, powerTable } from "./ends.js";
import { gravestFirst, keyFigures } from "./figures.js";
import { chainSection, hopEquipment, testVoltage } from "./hop-equipment.js";
import { type HopPageOf, interferenceSection } from "./interference.js";
import { type HopLicences, hopLicenceSection } from "./licences.js";
import { type CarriedByHop, carriesSection } from "./loads.js";
import { modesSection } from "./modes.js";
import { noteList, originSection } from "./origin.js";
import { type OtherBand, pairSection } from "./pair.js";
import { reflectionSection } from "./reflection.js";
import { scheduleSection } from "./schedule.js";
import { type HopTimes, timesSection } from "./times.js";

export interface HopPageInput {
  readonly hop: Hop;
  readonly result: HopResult;
  readonly profile?: TerrainProfile;
  /** The design around the hop, for its parts; without it the page tells none. */
  readonly around?: Design;
  /** Plans of the sites of the whole design; undefined: what is around the hop is all that there is. */
  readonly plans?: ReadonlyMap<string, SitePlan>;
  /** Page of a site, where there is one. */
  readonly sitePage?: (site: string) => string | undefined;
  /** The other hop of a dual-band pair: its power comes on top, and both are told together. */
  readonly pair?: OtherBand;
  /** At the receivers of the hop; undefined: it was not computed. */
  readonly interference?: readonly InterferenceAt[];
  /** What it does to the receivers of others. */
  readonly caused?: readonly Caused[];
  /** Hops near it whose channel is open: they are on none, and in no figure. */
  readonly openNeighbours?: readonly string[];
  /** Pages of other hops. */
  readonly pageOfHop?: HopPageOf;
  /** Which time the page shows, where not all of the hop stands at all times. */
  readonly times?: HopTimes;
  /** What the network has it carry; undefined: nothing is stated of that. */
  readonly carried?: CarriedByHop;
  /** What the hop is licensed for; undefined: nobody asks. */
  readonly licences?: HopLicences;
  readonly findings: readonly ReportFinding[];
  /** Name of this page, and of the overview that leads to it. */
  readonly name: string;
  readonly up?: { readonly text: string; readonly page: string };
  readonly colophon: string;
}

export function hopPage(input: HopPageInput): Page {
  const { hop, result, findings, name, up, colophon } = input;
  return {
    name,
    title: hop.title ?? hop.name,
    subtitle: subtitle(hop),
    up: up && { text: up.text, to: { page: up.page } },
    keyFigures: keyFigures(hop, result, findings),
    sections: printed([
      ...timesSection(input.times),
      findingsSection(hop, findings, result),
      ...(input.around ? chainSection(hop, result, input.around, input.plans) : []),
      pathSection(input),
      endsSection(input),
      cautions(hop, result, input.pair),
      ...levelSection(input),
      ...asBuiltSection(hop, result),
      ...carrierSection(hop, result),
      ...scheduleSection(hop, result),
      ...hopLicenceSection(input.licences),
      ...(input.around ? hopEquipment(hop, result, input.around, input.plans) : []),
      ...carriesSection(input.carried),
      ...modesSection(hop, result),
      ...interferenceSection(input),
      ...availabilitySection(hop, result),
      ...pairSection(input.pair),
      ...reflectionSection(hop, result),
      ...originSection(result, input.interference),
    ]),
    colophon,
  };
}

/**
 * For the file cabinet a hop is two or three sides: what sheets, lists and the pages of sites and parts have in full stays
 * on the screen, and what is looked up rather than read is set small.
 */
const ON_PAPER: Readonly<Record<string, Section["print"]>> = {
  chain: "left out",
  "as-built": "left out",
  carriers: "left out",
  schedule: "left out",
  licences: "left out",
  carries: "left out",
  equipment: "left out",
  safety: "small",
  interference: "small",
  inputs: "small",
  methods: "small",
};

function printed(sections: readonly Section[]): Section[] {
  return sections.map((section) => {
    const print = ON_PAPER[section.id];
    return print === undefined ? section : { ...section, print };
  });
}

function subtitle(hop: Hop): string {
  const { name, title, state, arrangement, radio, polarization, objective } = hop;
  const parts = [
    title === undefined ? undefined : name,
    state === undefined ? undefined : stateWords(state),
    arrangementWords(hop),
    radio?.title ?? radio?.name,
    polarizationWords({ arrangement, polarization }),
    objective === undefined ? undefined : `objective ${objective.title ?? objective.name}`,
  ];
  return parts.filter((part) => part !== undefined).join(", ");
}

const NOT_JUDGED: Block = {
  type: "paragraph",
  text: [
    { text: "not judged", mark: "unjudged" },
    " The hop has no objective: availability, fade margin, capacity and clearance are told, and held against nothing.",
  ],
};

function findingsSection({ objective }: Hop, findings: readonly ReportFinding[], result: HopResult): Section {
  const missing = result.missing.length > 0 ? " Not everything could be judged, see below." : "";
  return {
    id: "findings",
    title: "Findings",
    blocks: [
      ...(objective === undefined ? [NOT_JUDGED] : []),
      ...(findings.length > 0
        ? [{ type: "findings", findings: gravestFirst(findings) } as const]
        : [
            {
              type: "paragraph",
              text: `None of its own; what hops share, such as remarks on channel plans and methods, stands on the overview.${missing}`,
            } as const,
          ]),
    ],
  };
}

function pathSection({ hop, result, profile, findings }: HopPageInput): Section {
  const accepted = findings.some((finding) => finding.rule === "clearance" && finding.accepted);
  const drawn = profile && drawProfile(hop, result, profile, accepted);
  const narrow = drawn && drawProfile(hop, result, profile, accepted, NARROW);
  return {
    id: "path",
    title: "Path and clearance",
    blocks: [
      ...(drawn
        ? [
            {
              type: "figure",
              name: "profile",
              svg: drawn.svg,
              narrow: narrow?.svg,
              alt: drawn.alt,
              caption: drawn.caption,
            } as const,
          ]
        : [{ type: "paragraph", text: sentence(whyNoProfile(result, profile)) } as const]),
      ...(result.clearance.length > 0 ? [clearanceTable(result, accepted)] : []),
      ...groundNotKnown(result),
      ...obstacleList(hop),
    ],
  };
}

/** What of the ground is not known, and what stands in for it. */
function groundNotKnown({ unknownGround, profile }: HopResult): Block[] {
  const texts: string[] = [];
  if (unknownGround !== undefined) {
    const where =
      unknownGround === "all" || profile === undefined
        ? "Nothing is known of the ground between the ends."
        : `The ground is not known ${profile.gaps.map(stretchTold).join(", ")}.`;
    texts.push(
      `${where} An obstruction may stand there: clearance, level, margins and availability are those of the known ground, and what they meet stays open.`,
    );
  }
  if (profile?.bridges)
    texts.push(
      `The ground is not known ${profile.bridges.map(stretchTold).join(", ")}; a straight line stands in for it, as the network states with bridge-gaps.`,
    );
  return texts.map((text) => ({ type: "paragraph", text }));
}

/** Why the path is not drawn, and what would make it so. */
function whyNoProfile({ distanceM, missing }: HopResult, profile: TerrainProfile | undefined): string {
  const remedy = "Name terrain that covers it with `terrain` in the network, or a `survey` in the hop.";
  if (distanceM === undefined)
    return "The path is not drawn: it has no length while a position is missing or both are the same.";
  if (profile === undefined) {
    const lack = missing.find(({ of }) => of.includes("profile"));
    const why = lack ? shown(lackClause(lack)) : "no heights along it are known";
    return `The path is not drawn: ${why}. ${remedy}`;
  }
  return profile.heightM.some((heightM) => Number.isFinite(heightM))
    ? "The path is not drawn: with these heights or this length a drawing would show nothing."
    : `The path is not drawn: no terrain has a height anywhere along it. ${remedy}`;
}

function obstacleList({ obstacles, ends }: Hop): Block[] {
  if (obstacles.length === 0) return [];
  const items = obstacles.map(
    (obstacle) =>
      `${obstacleTitle(obstacle)}: ${metres(obstacle.heightM)} above ground, ${kilometres(obstacle.distanceM)} from ${ends[0].site.name}`,
  );
  return [
    { type: "paragraph", text: "Obstacles that the design adds to the terrain:" },
    { type: "list", items },
  ];
}

function endsSection({ hop, result, sitePage }: HopPageInput): Section {
  const links = hop.ends.flatMap(({ site }): Span[] => {
    const page = sitePage?.(site.name);
    return page === undefined ? [] : [{ text: site.name, to: { page } }];
  });
  const told: Inline = [
    "Structure, rack and every port: ",
    ...links.flatMap((one, k) => (k === 0 ? [one] : [", ", one])),
  ];
  return {
    id: "ends",
    title: "The two ends",
    blocks: [
      endsTable(hop, result),
      ...(links.length === 0 ? [] : [{ type: "paragraph", text: told } as const]),
    ],
  };
}

function levelSection({ hop, result, interference = [] }: HopPageInput): Section[] {
  const onAir = powerTable(hop, result);
  if (result.directions.length === 0) return onAir ? [{ id: "level", title: "Power", blocks: [onAir] }] : [];
  const tables = levelTables(result, interference);
  const sides = result.directions.map((direction, index) => {
    const at = worstAt(interference, direction.to);
    const drawn = drawLevels(
      direction,
      at && { noiseDbm: at.receiver.noiseDbm, interferenceDbm: sumDbm(at) },
    );
    const name = `level-${index + 1}`;
    return [
      ...(drawn ? [{ type: "figure", name, svg: drawn.svg, alt: drawn.alt, small: true } as const] : []),
      numbered(tables[index]!, direction.levels.length),
      ...besideDiagram(hop, direction),
    ];
  });
  const [first] = result.directions;
  const reference = first?.modes.at(-1);
  const text = `${whose(result)}, clear air${reference ? `, ${reference.modulation}, the highest mode` : ""}. The numbers in the drawing are those of the rows.${lengths(result)}`;
  const notes = result.notes.filter((one) => isAbout(one, "level"));
  return [
    {
      id: "level",
      title: "Level diagram",
      blocks: [
        { type: "paragraph", text },
        { type: "pair", sides },
        ...(onAir ? [onAir] : []),
        ...(notes.length > 0 ? [noteList(notes)] : []),
      ],
    },
  ];
}

/** Of a steep path the two differ, and a level worked by hand must know which. */
function lengths({ distanceM, slantDistanceM }: HopResult): string {
  if (distanceM === undefined || slantDistanceM === undefined) return "";
  return ` Free space and gases count the straight distance between the antennas, ${kilometres(slantDistanceM, 1)}; clearance, rain and multipath the length along the ground, ${kilometres(distanceM, 1)}.`;
}

/** Carriers may stand on different arms and antennas: the diagram is that of the weakest. */
function whose({ carriers }: HopResult): string {
  const apart = [0, 1].some((at) => {
    const levels = carriers.flatMap(({ ends }) => ends[at as 0 | 1].received?.highestDbm ?? []);
    return Math.max(...levels) - Math.min(...levels) > 0.05;
  });
  if (apart) return "The carrier of which least arrives";
  if (carriers.length > 1) return "Every carrier";
  return carriers.every(({ ends }) => ends.every(({ arm }) => arm === "none")) ? "One carrier" : "Main arms";
}

/** Each carrier over the arm that its unit has at either end; of one unit at each end the other tables tell all. */
function carrierSection(hop: Hop, result: HopResult): Section[] {
  const tables = severalUnits(result) ? carrierTables(hop, result) : [];
  if (tables.length === 0) return [];
  const blocks = tables.map(({ title, columns, rows }) => ({
    type: "table" as const,
    caption: title,
    columns,
    rows: rows.map((cells) => ({ cells })),
  }));
  return [{ id: "carriers", title: "Carriers", blocks }];
}

/** Levels that the diagram does not show. */
function besideDiagram(
  hop: Hop,
  { overload, standbyReceivedLevelDbm, receivedLevelDbm: lineUpDbm, paths, to }: DirectionResult,
): Block[] {
  const facts: Fact[] = [];
  const voltage = paths === undefined ? testVoltage(hop, lineUpDbm) : undefined;
  if (voltage !== undefined) facts.push({ label: `Test voltage at ${to}`, value: voltage });
  if (standbyReceivedLevelDbm !== undefined) {
    facts.push({ label: "Least with a unit on standby", value: dbm(standbyReceivedLevelDbm) });
  }
  if (overload) {
    const { receivedLevelDbm, overloadDbm, marginDb } = overload;
    facts.push({ label: "Received in the mode of greatest power", value: dbm(receivedLevelDbm) });
    facts.push({ label: `Below overload (${dbm(overloadDbm)})`, value: decibels(marginDb) });
    const { worstMonthPercent } = overload;
    if (worstMonthPercent !== undefined) {
      facts.push({
        label: "Overload by enhancement, worst month",
        value: outageBounded({ timePercent: worstMonthPercent }),
      });
    }
  }
  return facts.length === 0 ? [] : [{ type: "facts", facts }];
}

/** Site and detail go under the element, so that two tables stand side by side. @param count rows of what is passed */
function numbered({ title, rows }: Table, count: number) {
  return {
    type: "table",
    caption: title,
    columns: [
      { title: "" },
      { title: "Element" },
      { title: "Change", align: "right" },
      { title: "Level", align: "right" },
    ],
    rows: rows.map(([site, element, detail, change, level], index): TableRow => {
      const more = [detail, site].filter((part) => part !== "").join(", ");
      const named: Inline = more === "" ? element! : [element!, { text: ` ${more}`, mark: "quiet" }];
      return {
        cells: [{ text: index < count ? String(index + 1) : "", mark: "quiet" }, named, change!, level!],
      };
    }),
  } as const;
}
