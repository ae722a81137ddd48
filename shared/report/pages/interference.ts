/** What the transmissions of other hops and of others do at the receivers of a hop, every term of it. */
import type { HopResult } from "../../evaluate/account/result.js";
import { dbm, decibels, fixed, kilometres } from "../../format/numbers.js";
import type { Entry } from "../../interference/entry.js";
import { pathTermsOf } from "../../interference/entry-path.js";
import type { CoLocated, InterferenceAt } from "../../interference/receiver-result.js";
import { CUT_DB, MOST_ENTRIES } from "../../interference/search.js";
import { isOwn, type Sender } from "../../interference/station.js";
import { isAimed, lineWords, plainName, receiverWords } from "../../words/interference.js";
import type { Block, Fact, Inline, Section, Table, TableRow } from "../document/document.js";
import {
  carrierRatio,
  eirpWords,
  filterWords,
  interferenceTermsTold,
  isReached,
  lossMark,
  offsetWords,
  share,
  sumDbm,
} from "../interference.js";

/** More than so many are counted. */
const MOST_ROWS = 12;

/** Page of a hop, where there is one. */
export type HopPageOf = (hop: string) => string | undefined;

/** @param found undefined: interference was not computed */
export function interferenceSection(
  found: readonly InterferenceAt[] | undefined,
  { directions }: HopResult,
  pageOf: HopPageOf = () => undefined,
): Section[] {
  if (found === undefined || found.length === 0) return [];
  const reached = found.filter(isReached);
  const quiet = found.filter((at) => !isReached(at)).map(({ receiver }) => receiverWords(receiver));
  const blocks: Block[] = reached.flatMap((at) => receiverBlocks(at, directions, pageOf));
  if (quiet.length > 0)
    blocks.push({
      type: "paragraph",
      text: `No other transmission is in reach of ${quiet.length === 1 ? "the receiver" : "the receivers"} at ${quiet.join("; at ")}.`,
    });
  blocks.push({ type: "list", items: interferenceTermsTold(found) });
  return [{ id: "interference", title: "Interference", blocks }];
}

function receiverBlocks(at: InterferenceAt, directions: HopResult["directions"], pageOf: HopPageOf): Block[] {
  const { receiver, entries, coLocated } = at;
  const more = entries.length - MOST_ROWS;
  return [
    {
      type: "paragraph",
      text: [{ text: `Receiver at ${receiverWords(receiver)}`, mark: "strong" }, `. ${sumSentence(at)}`],
    },
    { type: "facts", facts: factsOf(at, directions) },
    ...(entries.length > 0 ? [entriesTable(at, pageOf)] : []),
    ...(more > 0
      ? [
          {
            type: "paragraph",
            text: `${more === 1 ? "One more comes in, at" : `${more} more come in, each at`} an I/N of ${decibels(entries[MOST_ROWS]!.toNoiseDb)}${more === 1 ? "; it is" : " or less; they are"} in the sum.`,
          } as const,
        ]
      : []),
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
      note: receiver.noiseAssumed ? "the noise figure is assumed" : undefined,
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

/** Whether power control lets any sender down that comes in. */
function isLetDown({ entries }: InterferenceAt): boolean {
  return entries.some(({ sender }) => sender.reductionDb > 0);
}

function entriesTable({ receiver, entries }: InterferenceAt, pageOf: HopPageOf): Table {
  return {
    type: "table",
    caption: `What comes in at ${receiverWords(receiver)}, the strongest first`,
    columns: [
      { title: "From" },
      { title: "Offset", align: "right" },
      { title: "Polarization" },
      { title: "Distance", align: "right" },
      { title: "Off its axis / off this", align: "right" },
      { title: "EIRP", align: "right" },
      { title: "Antennas", align: "right" },
      { title: "Loss long / short", align: "right" },
      { title: "Filters", align: "right" },
      { title: "Level", align: "right" },
      { title: "I/N long / short", align: "right" },
    ],
    rows: entries.slice(0, MOST_ROWS).map((entry) => entryRow(entry, pageOf)),
  };
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
      eirpWords(entry),
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
