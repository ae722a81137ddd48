/** What both sheets of a hop begin with: what it is, and the cautions. */
import { declinationAt } from "../../as-built/declination.js";
import { unitPlaces } from "../../as-built/expected.js";
import type { Channel, Hop, HopEnd } from "../../design/design.js";
import { unitsOf } from "../../equipment/units.js";
import type { HopResult } from "../../evaluate/account/result.js";
import { withinReason } from "../../evaluate/reason.js";
import { bandwidth, dbm, fixed, frequency, kilometres, metres } from "../../format/numbers.js";
import type { Pair } from "../../network/in-network.js";
import { factsAt } from "../../radio/arrangement-pairs.js";
import { SINGLE } from "../../radio/arrangements.js";
import { criteriaOf } from "../../rules/asked.js";
import type { Inline, Section, TableRow } from "../document/document.js";
import type { KeepOut } from "../exposure.js";
import { distancesToKeep } from "../pages/cautions.js";
import { azimuthText, countedFrom, gridNorthAt, signedDegrees } from "./norths.js";
import { compassTold, type MagneticDay } from "./running.js";
import type { SheetWords } from "./words/sheet-words.js";

export interface HopSheetInput {
  readonly hop: Hop;
  readonly result: HopResult;
  /** The other hop of a dual-band pair: its power comes on top where the antenna is shared. */
  readonly pair?: Pair | undefined;
  /** Undefined: there is none, and bearings for a compass are left out. */
  readonly magneticDay?: MagneticDay | undefined;
  /** Of the design. */
  readonly design?: string;
  readonly name: string;
  readonly words: SheetWords;
  readonly colophon: string;
}

/** A row a fact, a column an end; `brief`: without what an antenna is turned by. */
export function hopFacts(input: HopSheetInput, length: "whole" | "brief" = "whole"): Section {
  const { hop, result, words, magneticDay } = input;
  const { facts, common, figure, polarizations } = words;
  /** @param needless why an end has none of it by rights */
  const row = (
    label: string,
    of: (end: HopEnd, at: 0 | 1) => string | undefined,
    needless: (end: HopEnd) => string | undefined = () => undefined,
  ): TableRow[] => {
    const cells = ([0, 1] as const).map((at) => of(hop.ends[at], at));
    if (cells.every((cell) => cell === undefined)) return [];
    return [
      { cells: [label, ...cells.map((cell, at) => cell ?? needless(hop.ends[at]!) ?? common.notStated)] },
    ];
  };
  const geometry = (at: 0 | 1) => result.geometry?.[at];
  const directionFrom = (end: HopEnd) => result.directions.find(({ from }) => from === end.site.name);
  const polarizationOf = (end: HopEnd) => {
    const units = unitsOf(hop, end, factsAt(hop, end) ?? SINGLE);
    const all = [...new Set(units.flatMap(({ polarization }) => polarization ?? []))];
    return all.length === 0 ? undefined : all.map((one) => polarizations[one]).join(", ");
  };
  const rows = [
    ...row(
      common.antenna[0]!.toUpperCase() + common.antenna.slice(1),
      ({ antenna }) => antenna?.title ?? antenna?.name,
    ),
    ...row(facts.height, ({ antennaHeightM }) =>
      antennaHeightM === undefined ? undefined : figure(metres(antennaHeightM)),
    ),
    ...row(facts.azimuthTrue, (_, at) => {
      const seen = geometry(at);
      return seen && facts.norths.true(figure(azimuthText(seen.azimuthDeg, 2)));
    }),
    ...(length === "brief" ? [] : turningRows(input, row)),
    ...row(facts.transmits, ({ transmitFrequencyHz }) =>
      transmitFrequencyHz === undefined ? undefined : figure(frequency(transmitFrequencyHz)),
    ),
    ...row(facts.receives, (end) => {
      const other = hop.ends.find((one) => one !== end)?.transmitFrequencyHz;
      return other === undefined ? undefined : figure(frequency(other));
    }),
    ...row(facts.channel, () => hop.channel && channelText(hop.channel, figure)),
    ...row(facts.modes, () => modesText(hop)),
    ...row(facts.polarization, polarizationOf),
    ...row(facts.radio, () => hop.radio?.title ?? hop.radio?.name),
    ...row(facts.power, (end) => {
      const first = directionFrom(end)?.levels[0];
      return first && figure(dbm(first.levelDbm));
    }),
    ...row(
      facts.coupler,
      (end) => end.coupler?.title ?? end.coupler?.name,
      (end) => (unitPlaces(hop, end).length === 1 ? facts.noCoupler : undefined),
    ),
    ...row(facts.cable, ({ installation }) =>
      installation?.cableLengthM === undefined ? undefined : figure(metres(installation.cableLengthM)),
    ),
  ];
  const path: Inline =
    result.distanceM === undefined
      ? `${facts.length}: ${common.notStated}`
      : `${facts.length}: ${figure(kilometres(result.distanceM))}`;
  return {
    id: "hop",
    title: facts.title,
    blocks: [
      { type: "paragraph", text: path },
      {
        type: "table",
        columns: [
          { title: common.what },
          ...hop.ends.map(({ site }) => ({
            title: site.title === undefined ? site.name : `${site.name}, ${site.title}`,
          })),
        ],
        rows,
      },
      ...(length === "brief"
        ? []
        : [
            {
              type: "paragraph",
              text: { text: compassTold(magneticDay, words).text, mark: "quiet" },
            } as const,
            { type: "paragraph", text: { text: facts.polarizationTold, mark: "quiet" } } as const,
          ]),
    ],
  };
}

type RowOf = (label: string, of: (end: HopEnd, at: 0 | 1) => string | undefined) => TableRow[];

/** What an antenna is turned by, from each north. */
function turningRows({ result, words, magneticDay }: HopSheetInput, row: RowOf): TableRow[] {
  const { facts, figure } = words;
  const { day } = compassTold(magneticDay, words);
  const geometry = (at: 0 | 1) => result.geometry?.[at];
  return [
    ...(day === undefined
      ? []
      : row(facts.azimuthCompass(words.day(day)), (end, at) => {
          const seen = geometry(at);
          const declinationDeg = declinationAt(end.site, day);
          if (seen === undefined) return undefined;
          if (declinationDeg === undefined) return facts.noDeclination;
          const compassDeg = (seen.azimuthDeg - declinationDeg + 360) % 360;
          const azimuth = facts.norths.magnetic(figure(azimuthText(compassDeg, 1)));
          return `${azimuth} (${facts.declination} ${figure(signedDegrees(declinationDeg, 1))})`;
        })),
    ...row(facts.azimuthGrid, (end, at) => {
      const seen = geometry(at);
      const grid = gridNorthAt(end.site);
      if (seen === undefined || grid === undefined) return undefined;
      const azimuth = azimuthText(countedFrom(seen.azimuthDeg, grid.convergenceDeg), 2);
      return `${facts.norths.grid(figure(azimuth))} (${words.installation.gridName(grid.grid)}, ${figure(signedDegrees(grid.convergenceDeg, 2))})`;
    }),
    ...row(facts.elevation, (_, at) => {
      const seen = geometry(at);
      return seen && figure(`${fixed(seen.elevationDeg, 2)}°`);
    }),
  ];
}

function channelText({ plan, bandwidthHz, number }: Channel, figure: (text: string) => string): string {
  return `${plan} / ${figure(bandwidth(bandwidthHz))} / ${number}`;
}

/** The lowest and the highest. */
function modesText({ modes }: Hop): string | undefined {
  const names = [modes[0], modes.at(-1)].flatMap((mode) => mode?.modulation ?? []);
  return names.length === 0 ? undefined : [...new Set(names)].join(" – ");
}

/** What its objective asks, with verdicts; none where it has no objective. */
export function askedOf(hop: Hop, result: HopResult): ReturnType<typeof criteriaOf> {
  return hop.objective === undefined ? [] : criteriaOf(hop, withinReason(hop).hop, result);
}

/** Never apart from the sheet that sends somebody there; `brief` on one that is signed: distances, and what comes first. */
export function sheetCautions(
  { hop, result, pair, words }: HopSheetInput,
  length: "whole" | "brief" = "whole",
): Section {
  return cautionsSection(distancesToKeep(hop, result, pair), words, length);
}

/** @param distances each with what stands in front of its sentence, a site or a hop */
export function cautionsSection(
  distances: readonly Pick<KeepOut, "site" | "generalPublicM" | "occupationalM">[],
  { safety, figure }: SheetWords,
  length: "whole" | "brief",
): Section {
  const up = (distanceM: number) => figure(`${fixed(Math.ceil(distanceM * 10) / 10, 1)} m`);
  const told = distances.map(({ site, generalPublicM, occupationalM }) =>
    safety.keepOut(site, up(generalPublicM), up(occupationalM)),
  );
  const items = [
    ...told,
    ...(length === "brief" ? [...safety.items.slice(0, 1), safety.brief] : safety.items),
    ...(told.length > 0 ? [safety.keepOutLaw] : []),
  ];
  return { id: "safety", title: safety.title, blocks: [{ type: "cautions", items }] };
}

export function sheetSubtitle({ hop, design, words }: HopSheetInput): string {
  const names = hop.ends.map(({ site }) => site.title ?? site.name).join(" – ");
  const parts = [hop.title === undefined ? undefined : hop.name, names];
  if (design !== undefined) parts.push(`${words.common.designOf}: ${design}`);
  return parts.filter((part) => part !== undefined).join(", ");
}
