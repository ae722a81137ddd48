/** What a hop is made of: its arrangement in words, the way through every branch, and the parts at both ends. */
import type { Design, Hop } from "../../design/design.js";
import { carrierUnits } from "../../equipment/branches.js";
import { deliveryWords, withoutDelivery } from "../../equipment/delivery.js";
import { merged, type Part, partsOfEnd, unitWords } from "../../equipment/parts-list.js";
import { rssiVoltage } from "../../equipment/rssi.js";
import { type SitePlan, sitePlans } from "../../equipment/site-plan.js";
import { type UnitSetting, unitsOf } from "../../equipment/units.js";
import type { PathLevel } from "../../evaluate/account/level-result.js";
import type { HopResult } from "../../evaluate/account/result.js";
import { dbm, decibels, frequency, trimmed } from "../../format/numbers.js";
import { endsDiffer, factsAt } from "../../radio/arrangement-pairs.js";
import type { ArrangementFacts } from "../../radio/arrangements.js";
import { branchName } from "../../words/wiring.js";
import { armText } from "../carriers.js";
import type { Block, Section, Table, TableRow } from "../document/document.js";
import { drawChain } from "../draw/system/chain/draw-chain.js";

/**
 * @param design the whole design, or as much of it as the hop and its two sites need
 * @param plans of its two sites with all that stands there: on which port a unit is depends on the others
 */
export function hopEquipment(
  hop: Hop,
  result: HopResult,
  design: Design,
  plans: ReadonlyMap<string, SitePlan> = sitePlans(design),
): Section[] {
  const blocks = [
    ...arrangementParagraphs(hop),
    ...channelTable(hop),
    ...pathTables(hop, result),
    ...partsTable(hop, design, plans),
  ];
  return blocks.length === 0 ? [] : [{ id: "equipment", title: "Equipment", blocks }];
}

/** A paragraph for the hop; one for each end where they are built differently. */
function arrangementParagraphs(hop: Hop): Block[] {
  if (!endsDiffer(hop)) return arrangementParagraph(factsAt(hop, hop.ends[0]));
  return hop.ends.flatMap((end) => arrangementParagraph(factsAt(hop, end), ` at ${end.site.name}`));
}

function arrangementParagraph(facts: ArrangementFacts | undefined, where = ""): Block[] {
  if (facts === undefined) return [];
  const said = [
    facts.title,
    facts.protects.length > 0 ? `protects ${facts.protects.join("; ")}` : undefined,
    facts.doesNotProtect.length > 0 ? `does not protect ${facts.doesNotProtect.join("; ")}` : undefined,
  ].filter((part) => part !== undefined);
  const text = said.map((part) => `${part[0]!.toUpperCase()}${part.slice(1)}.`).join(" ");
  return [{ type: "paragraph", text: [{ text: `${facts.name}${where}:`, mark: "strong" }, ` ${text}`] }];
}

/** Where carriers have channels or polarizations of their own: which unit is ordered and set to what. */
function channelTable(hop: Hop): Table[] {
  const [here, there] = hop.ends.map((end) => {
    const facts = factsAt(hop, end);
    return facts && { facts, units: unitsOf(hop, end, facts) };
  });
  if (here === undefined || there === undefined || hop.radio === undefined) return [];
  if (here.facts.frequencyPairs < 2 && here.facts.polarizations < 2) return [];
  const words = (unit: UnitSetting | undefined) => {
    if (unit === undefined) return "–";
    const hz = unit.transmitHz === undefined ? undefined : frequency(unit.transmitHz);
    return [hz, unitWords(unit)].filter((word) => word !== undefined).join(", ") || "–";
  };
  return [
    {
      type: "table",
      caption: "Units and their channels",
      columns: [
        { title: "Branch" },
        { title: "Channel", align: "right" },
        { title: "Polarization" },
        ...hop.ends.map(({ site }) => ({ title: `Transmits at ${site.name}` })),
      ],
      rows: unitPairs(here, there).map(([one, other]) => {
        const { channel, polarization } = (one ?? other)!;
        return {
          cells: [
            [
              ...new Set([one, other].flatMap((unit) => (unit === undefined ? [] : branchName(unit.branch)))),
            ].join(" / "),
            channel === undefined ? "not stated" : String(channel),
            polarization ?? "not stated",
            words(one),
            words(other),
          ],
        };
      }),
    },
  ];
}

interface UnitsAt {
  readonly facts: ArrangementFacts;
  readonly units: readonly UnitSetting[];
}

/** Units of both ends that speak to each other, in the order of the carriers; one that waits at one end only by itself. */
function unitPairs(
  here: UnitsAt,
  there: UnitsAt,
): readonly (readonly [UnitSetting | undefined, UnitSetting | undefined])[] {
  const far = carrierUnits(there.facts);
  return carrierUnits(here.facts).flatMap((own, carrier) => {
    const other = far[carrier];
    const at = ({ units }: UnitsAt, place: number | undefined) =>
      place === undefined ? undefined : units[place];
    const working = [at(here, own.unit), at(there, other?.unit)] as const;
    const waiting = [at(here, own.standby), at(there, other?.standby)] as const;
    return waiting.every((unit) => unit === undefined) ? [working] : [working, waiting];
  });
}

/** What the technician reads at the unit for a level; undefined where the radio states no curve or the level lies outside. */
export function testVoltage({ radio }: Hop, levelDbm: number): string | undefined {
  const found = rssiVoltage(radio?.unit?.rssi ?? [], levelDbm);
  return found.ok ? `${found.voltageV.toFixed(2)} V` : undefined;
}

/** Every branch is measured when the hop is turned up, standby included: by forcing the switch. */
function pathTables(hop: Hop, result: HopResult): Block[] {
  const points = hop.radio?.unit?.rssi ?? [];
  const voltage = ({ receivedLevelDbm }: PathLevel) => testVoltage(hop, receivedLevelDbm) ?? "–";
  return result.directions.flatMap(({ from, to, paths }): Table[] => {
    if (paths === undefined) return [];
    return [
      {
        type: "table",
        caption: `Paths from ${from} to ${to}, clear air, highest mode`,
        columns: [
          { title: "State" },
          { title: `Branch at ${from}` },
          { title: `Branch at ${to}` },
          { title: "Branching loss", align: "right" },
          { title: "Received level", align: "right" },
          ...(points.length > 0 ? [{ title: "Test voltage", align: "right" } as const] : []),
        ],
        rows: paths.map((path) => ({
          cells: [
            path.state,
            branchWords(path.from, path.fromArm),
            branchWords(path.to, path.toArm),
            decibels(path.branchingLossDb),
            dbm(path.receivedLevelDbm),
            ...(points.length > 0 ? [voltage(path)] : []),
          ],
        })),
      },
    ];
  });
}

function branchWords(branch: string, arm: PathLevel["fromArm"]): string {
  const words = armText({ arm });
  const name = branchName(branch);
  return words === undefined ? name : `${name}, ${words}`;
}

/** The whole hop at one look, before what is told of it. */
export function chainSection(
  hop: Hop,
  result: HopResult,
  design: Design,
  plans: ReadonlyMap<string, SitePlan> = sitePlans(design),
): Section[] {
  const drawn = drawChain(hop, result, plans);
  if (drawn === undefined) return [];
  return [
    { id: "chain", title: "The hop as it is built", blocks: [{ type: "figure", name: "chain", ...drawn }] },
  ];
}

function partsTable(hop: Hop, design: Design, plans: ReadonlyMap<string, SitePlan>): Block[] {
  const [first, second] = hop.ends.map((end) => {
    const plan = plans.get(end.site.name);
    const here = plan?.ends.find((one) => one.hop.name === hop.name);
    return plan && here ? partsOfEnd(here, plan, design) : [];
  });
  const rows = rowsOf(first ?? [], second ?? []);
  if (rows.length === 0) return [];
  const estimated = [...(first ?? []), ...(second ?? [])].some((part) => part.estimated);
  return [
    {
      type: "table",
      caption: "Parts",
      columns: [
        { title: "Part" },
        { title: "Type" },
        { title: hop.ends[0].site.name, align: "right" },
        { title: hop.ends[1].site.name, align: "right" },
      ],
      rows,
    },
    ...(estimated
      ? [{ type: "paragraph", text: "Lengths marked ~ are estimates from the antennas' heights." } as const]
      : []),
  ];
}

function rowsOf(first: readonly Part[], second: readonly Part[]): TableRow[] {
  const key = ({ kind, name, detail }: Part) => `${kind}\n${name}\n${detail ?? ""}`;
  const left = new Map(first.map((part) => [key(part), part]));
  const right = new Map(second.map((part) => [key(part), part]));
  return merged([...first, ...second].map(withoutDelivery)).map((part) => {
    const [here, there] = [left.get(key(part)), right.get(key(part))];
    return { cells: [part.kind, partWords(part), quantity(here), quantity(there)] };
  });
}

/** `R18, 18 GHz split-mount unit, high half` */
export function partWords({ name, title, detail, orderCode }: Part): string {
  const code = orderCode === undefined ? undefined : `order code ${orderCode}`;
  return [name, title, detail, code].filter((word) => word !== undefined).join(", ");
}

/** Pieces; of cable `2 x ~42 m`, or the sum of those that differ: `3, ~90 m together`. */
export function quantity(part: Part | undefined): string {
  if (part === undefined) return "–";
  const far = part.delivery === undefined ? "" : `, ${deliveryWords(part.delivery)}`;
  if (part.lengthM === undefined) return `${part.quantity}${far}`;
  const metres = (lengthM: number) => `${part.estimated ? "~" : ""}${trimmed(lengthM, 1)} m`;
  return part.eachM === undefined
    ? `${part.quantity}, ${metres(part.lengthM)} together${far}`
    : `${part.quantity} x ${metres(part.eachM)}${far}`;
}
