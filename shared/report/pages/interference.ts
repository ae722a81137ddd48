/** What the transmissions of other hops and of others do at the receivers of a hop, every term of it. */
import type { Hop } from "../../design/design.js";
import type { HopResult } from "../../evaluate/account/result.js";
import { dbm, decibels, fixed, kilometres } from "../../format/numbers.js";
import type { Caused } from "../../interference/caused.js";
import type { Entry } from "../../interference/entry.js";
import { pathTermsOf } from "../../interference/entry-path.js";
import { sumDb } from "../../interference/level.js";
import type { CoLocated, InterferenceAt } from "../../interference/receiver-result.js";
import { CUT_DB, LEAST_DEGRADATION_DB, MOST_ENTRIES } from "../../interference/search.js";
import { isOwn, type Receiver, type Sender } from "../../interference/station.js";
import { isAimed, lineWords, plainName, receiverWords } from "../../words/interference.js";
import type { Block, Fact, Inline, Section, Span, Table, TableRow } from "../document/document.js";
import {
  carrierRatio,
  eirpWords,
  filterWords,
  interferenceTermsTold,
  isReached,
  lossMark,
  offsetWords,
  powerWords,
  share,
  sumDbm,
} from "../interference.js";
import { causedBlocks } from "./interference-caused.js";
import { criteriaAt, criteriaTable } from "./interference-criteria.js";

/** More than so many are counted. */
const MOST_ROWS = 12;

/** Page of a hop, where there is one. */
export type HopPageOf = (hop: string) => string | undefined;

export interface InterferenceInput {
  readonly hop: Hop;
  readonly result: HopResult;
  /** At the receivers of the hop; undefined: it was not computed. */
  readonly interference?: readonly InterferenceAt[];
  readonly caused?: readonly Caused[];
  readonly openNeighbours?: readonly string[];
  readonly pageOfHop?: HopPageOf;
}

export function interferenceSection({
  hop,
  result: { directions },
  interference: found,
  caused = [],
  openNeighbours = [],
  pageOfHop: pageOf = () => undefined,
}: InterferenceInput): Section[] {
  if (found === undefined) return [];
  const silent = silentBlocks(hop, openNeighbours, pageOf);
  if (found.length === 0 && silent.length === 0) return [];
  const reached = found.filter(isReached);
  const quiet = found.filter((at) => !isReached(at)).map(({ receiver }) => receiverWords(receiver));
  const blocks: Block[] = reached.flatMap((at) => receiverBlocks(at, directions, pageOf));
  if (quiet.length > 0)
    blocks.push({
      type: "paragraph",
      text: `No other transmission is in reach of ${quiet.length === 1 ? "the receiver" : "the receivers"} at ${quiet.join("; at ")}.`,
    });
  if (found.length > 0) blocks.push(...causedBlocks(caused, pageOf));
  blocks.push(...silent);
  if (found.length > 0) blocks.push({ type: "list", items: interferenceTermsTold(found) });
  return [{ id: "interference", title: "Interference", blocks }];
}

const MOST_OPEN = 8;

/** Who is in no figure, since nobody knows yet on which channel. */
function silentBlocks({ name, openChannel }: Hop, neighbours: readonly string[], pageOf: HopPageOf): Block[] {
  const own =
    openChannel === undefined
      ? []
      : [
          {
            type: "paragraph",
            text: `The channel of ${name} is still open: it is on none, so that nothing is computed that it suffers or causes. The command \`hopwright channels ${name}\` tries each.`,
          } as const,
        ];
  if (neighbours.length === 0) return own;
  const more = neighbours.length - MOST_OPEN;
  const links = neighbours.slice(0, MOST_OPEN).flatMap((hop, i): Span[] => {
    const page = pageOf(hop);
    return [...(i === 0 ? [] : [", "]), page === undefined ? hop : { text: hop, to: { page } }];
  });
  const isOne = neighbours.length === 1;
  return [
    ...own,
    {
      type: "paragraph",
      text: [
        `Not in these figures ${isOne ? "is a hop" : "are hops"} near whose channel is still open, and which ${isOne ? "sends" : "send"} on none so far: `,
        ...links,
        more > 0 ? ` and ${more} more.` : ".",
      ],
    },
  ];
}

function receiverBlocks(at: InterferenceAt, directions: HopResult["directions"], pageOf: HopPageOf): Block[] {
  const { receiver, entries, coLocated } = at;
  return [
    {
      type: "paragraph",
      text: [{ text: `Receiver at ${receiverWords(receiver)}`, mark: "strong" }, `. ${sumSentence(at)}`],
    },
    { type: "facts", facts: factsOf(at, directions) },
    criteriaTable(criteriaAt(at)),
    ...(entries.length > 0 ? [entriesTable(at, pageOf)] : []),
    ...(coLocated.length > 0 ? coLocatedBlocks(coLocated, at, pageOf) : []),
  ];
}

function sumSentence({ toNoiseDb, degradationDb, entries }: InterferenceAt): string {
  if (toNoiseDb === undefined) return "Nothing in reach is judged.";
  const count = entries.length === 1 ? "One transmission comes" : `${entries.length} transmissions come`;
  return `${entries.length === 0 ? "None comes" : count} in above the cut; the threshold rises by ${decibels(degradationDb)}.`;
}

function factsOf(at: InterferenceAt, directions: HopResult["directions"]): Fact[] {
  const { receiver, terms, toNoiseDb, fullToNoiseDb, shortToNoiseDb, cutToNoiseDb, beyondMost } = at;
  const path = pathTermsOf(terms);
  const facts: Fact[] = [
    {
      label: "Noise",
      value: dbm(receiver.noiseDbm),
      note: noiseNote(receiver),
    },
  ];
  const sum = sumDbm(at);
  if (sum !== undefined && toNoiseDb !== undefined && fullToNoiseDb !== undefined) {
    facts.push(
      {
        label: "Sum of interference",
        value: `${dbm(sum)}, I/N ${decibels(toNoiseDb)}`,
        note: `${share(path.longTermPercent)} of the time${isLetDown(at) ? `, with power control as in clear air; with full power I/N ${decibels(fullToNoiseDb)}` : ", with full power"}`,
      },
      {
        label: "Degradation",
        value: decibels(at.degradationDb),
        note: `${isLetDown(at) ? `with full power ${decibels(at.fullDegradationDb)}; ` : ""}by the strongest alone ${decibels(at.singleDegradationDb)}`,
      },
    );
  }
  if (shortToNoiseDb !== undefined)
    facts.push({
      label: "For a short time",
      value: `I/N ${decibels(shortToNoiseDb)}, degradation ${decibels(at.shortDegradationDb)}`,
      note: `${share(path.shortTermPercent)} of the time, the strongest alone, with full power`,
    });
  const ratio = carrierRatio(at, directions);
  if (ratio !== undefined)
    facts.push({
      label: "C/I",
      value: `${decibels(ratio.wantedDb)} at the wanted level, ${decibels(ratio.fadedDb)} at the raised threshold`,
      note: `${ratio.modulation}, behind the filters`,
    });
  if (cutToNoiseDb !== undefined)
    facts.push({
      label: beyondMost === undefined ? "Below the cut" : "Not computed",
      value: `I/N ${decibels(cutToNoiseDb)} at most`,
      note: `${beyondMost === undefined ? "" : `${beyondMost} above the cut, beyond the ${MOST_ENTRIES} strongest; further `}not computed one by one: bounds below ${decibels(CUT_DB)}, or lower where those were too much; in the sum`,
    });
  return facts;
}

/** `noise figure 6.5 dB over 47.8 MHz` */
function noiseNote({ noise, noiseAssumed }: Receiver): string | undefined {
  if (noise === undefined) return noiseAssumed ? "the noise figure is assumed" : undefined;
  return `noise figure ${decibels(noise.figureDb)}${noiseAssumed ? ", assumed," : ""} over the symbol rate of ${fixed(noise.symbolRateHz / 1e6, 1)} MHz`;
}

/** Whether power control lets any sender down that comes in. */
function isLetDown({ entries }: InterferenceAt): boolean {
  return entries.some(({ sender }) => sender.reductionDb > 0);
}

function entriesTable({ receiver, entries }: InterferenceAt, pageOf: HopPageOf): Table {
  const told = toldEntries(entries);
  const rest = entries.filter((entry) => !told.includes(entry));
  return {
    type: "table",
    caption: `What comes in at ${receiverWords(receiver)}, the strongest first`,
    columns: [
      { title: "From" },
      { title: "Offset", align: "right" },
      { title: "Polarization" },
      { title: "Distance", align: "right" },
      { title: "Off its axis / off this", align: "right" },
      { title: "Power, EIRP", align: "right" },
      { title: "Antennas", align: "right" },
      { title: "Loss long / short", align: "right" },
      { title: "Filters", align: "right" },
      { title: "Level", align: "right" },
      { title: "I/N long / short", align: "right" },
    ],
    rows: [...told.map((entry) => entryRow(entry, pageOf)), ...(rest.length > 0 ? [restRow(rest)] : [])],
  };
}

/** Below this one alone raises a threshold by less than the last digit that is printed, 0.05 dB. I/N. */
const TOLD_DB = 10 * Math.log10(10 ** (LEAST_DEGRADATION_DB / 10) - 1);

/** Those that matter by themselves, long or short; the strongest in any case, and where one alone is left that too. */
function toldEntries(entries: readonly Entry[]): readonly Entry[] {
  const told = entries.filter(
    ({ toNoiseDb, shortToNoiseDb }, i) => i === 0 || toNoiseDb >= TOLD_DB || shortToNoiseDb >= TOLD_DB,
  );
  const count = Math.min(told.length, MOST_ROWS);
  return entries.length === count + 1 ? entries : told.slice(0, count);
}

function restRow(rest: readonly Entry[]): TableRow {
  const long = sumDb(rest.map(({ inSumToNoiseDb }) => inSumToNoiseDb));
  const short = Math.max(...rest.map(({ shortToNoiseDb }) => shortToNoiseDb));
  const cells = Array.from({ length: 11 }, (): Inline => "");
  cells[0] = { text: `${rest.length} weaker ones, summed`, mark: "quiet" };
  cells[10] = both(long === undefined ? "" : fixed(long, 1), `${decibels(short)} at most`);
  return { cells };
}

function entryRow(entry: Entry, pageOf: HopPageOf): TableRow {
  const { sender, path, relation, offsetHz } = entry;
  return {
    cells: [
      from(sender, pageOf),
      offsetWords(offsetHz),
      RELATION[relation],
      kilometres(path.distanceM),
      both(isAimed(sender) ? angle(entry.leavesOffAxisDeg) : "any", angle(entry.arrivesOffAxisDeg)),
      [powerWords(entry), eirpWords(entry)]
        .map((words) => words?.replaceAll(" dB", "\u00a0dB"))
        .filter(Boolean)
        .join(", "),
      decibels(entry.discriminationDb),
      `${both(fixed(path.longTermLossDb, 1), decibels(path.shortTermLossDb))} ${lossMark(entry)}`,
      filterWords(entry),
      dbm(entry.levelDbm),
      both(fixed(entry.toNoiseDb, 1), decibels(entry.shortToNoiseDb)),
    ],
  };
}

/** One span: where rows are cards a cell of several would be drawn apart. */
function from({ of, place }: Sender, pageOf: HopPageOf): Inline {
  if (!isOwn(of)) return `others, ${lineWords(of)}${of.name === undefined ? "" : `: ${plainName(of.name)}`}`;
  const text = `${of.hop} at ${place.site}`;
  const page = pageOf(of.hop);
  return page === undefined ? text : { text, to: { page } };
}

function coLocatedBlocks(
  coLocated: readonly CoLocated[],
  { receiver }: InterferenceAt,
  pageOf: HopPageOf,
): Block[] {
  const nearest = coLocated.toSorted((a, b) => Math.abs(a.offsetHz) - Math.abs(b.offsetHz));
  const more = coLocated.length - MOST_ROWS;
  return [
    {
      type: "table",
      caption: `Antennas at the same place as ${receiverWords(receiver)}, within reach of its filters`,
      columns: [
        { title: "From" },
        { title: "Axes apart", align: "right" },
        { title: "Offset", align: "right" },
        { title: "Coupling loss" },
      ],
      rows: nearest.slice(0, MOST_ROWS).map(({ sender, apartDeg, offsetHz, toNoiseDb }) => ({
        cells: [
          from(sender, pageOf),
          apartDeg === undefined ? "not known" : angle(apartDeg),
          offsetWords(offsetHz),
          toNoiseDb === undefined ? "not stated" : `stated, I/N ${decibels(toNoiseDb)}`,
        ],
      })),
    },
    ...(more > 0
      ? [{ type: "paragraph", text: `${more} more stand further off in frequency.` } as const]
      : []),
  ];
}

const RELATION = { parallel: "same", crossed: "crossed", oblique: "at 45°" } as const;

/** Two figures of one cell, which no line parts. */
function both(one: string, other: string): string {
  return `${one} / ${other}`.replaceAll(" ", "\u00a0");
}

function angle(deg: number): string {
  return `${fixed(deg, 1)}°`;
}
