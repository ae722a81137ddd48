/** What a hop does to the receivers of other hops and of others: those that it harms most first. */
import { decibels, fixed } from "../../format/numbers.js";
import type { Caused } from "../../interference/caused.js";
import { sumDb } from "../../interference/level.js";
import { isOwn, type Receiver } from "../../interference/station.js";
import { degradationDb } from "../../radio/degradation.js";
import { lineWords, plainName } from "../../words/interference.js";
import type { Block, Inline, TableRow } from "../document/document.js";
import {
  criteriaAt,
  criterionMark,
  type InterferenceCriterion,
  isMissed,
  isWords,
  mostWords,
} from "./interference-criteria.js";

/** More than so many are counted. */
const MOST_ROWS = 12;
/** A receiver that loses less to the hop is not told by itself: the last digit printed. */
const TOLD_DB = 0.05;

interface Row {
  readonly receiver: Receiver;
  /** Of the hop alone; undefined: at the same place, and not judged. */
  readonly longDb?: number;
  readonly shortDb?: number;
  readonly costsDb: number;
  readonly criterion: InterferenceCriterion;
}

export function causedBlocks(
  caused: readonly Caused[],
  pageOf: (hop: string) => string | undefined,
): Block[] {
  const rows = caused.map(rowOf).toSorted(worstFirst);
  const told = rows.filter((row) => row.costsDb >= TOLD_DB || row.longDb === undefined).slice(0, MOST_ROWS);
  const rest = rows.length - told.length;
  const most = Math.max(0, ...rows.filter((row) => !told.includes(row)).map(({ costsDb }) => costsDb));
  const heading: Block = {
    type: "paragraph",
    text: [{ text: "What it does to others", mark: "strong" }, `. ${sentence(rows, told)}`],
  };
  if (told.length === 0) return [heading];
  return [
    heading,
    {
      type: "table",
      caption: "Receivers that this hop reaches, the most harmed first",
      columns: [
        { title: "Receiver" },
        { title: "I/N by this hop long / short", align: "right" },
        { title: "Degradation by it alone", align: "right" },
        { title: "Criterion there" },
        { title: "Is there", align: "right" },
        { title: "At most", align: "right" },
        { title: "" },
      ],
      rows: told.map((row) => tableRow(row, pageOf)),
    },
    ...(rest > 0
      ? [
          {
            type: "paragraph",
            text: `${rest} more ${rest === 1 ? "receiver loses" : "receivers lose"} ${decibels(most, 1)} to it at most.`,
          } as const,
        ]
      : []),
  ];
}

function sentence(rows: readonly Row[], told: readonly Row[]): string {
  if (rows.length === 0)
    return "No receiver of another hop, and none that a list of others names, is in its reach.";
  const count = rows.length === 1 ? "One receiver is" : `${rows.length} receivers are`;
  return told.length === 0
    ? `${count} in its reach; none loses ${decibels(TOLD_DB, 1)} to it.`
    : `${count} in its reach.`;
}

function rowOf({ at, entries, coLocated }: Caused): Row {
  const coupled = coLocated.flatMap(({ toNoiseDb }) => toNoiseDb ?? []);
  const longDb = sumDb([...entries.map(({ inSumToNoiseDb }) => inSumToNoiseDb), ...coupled]);
  const shorts = [...entries.map(({ shortToNoiseDb }) => shortToNoiseDb), ...coupled];
  const criteria = criteriaAt(at);
  // Of several the one that is missed, or that is nearest to it.
  const [criterion] = criteria.toSorted((a, b) => b.isDb - b.mostDb - (a.isDb - a.mostDb));
  return {
    receiver: at.receiver,
    ...(longDb !== undefined && { longDb, shortDb: Math.max(...shorts) }),
    costsDb: longDb === undefined ? 0 : degradationDb(longDb),
    criterion: criterion!,
  };
}

function worstFirst(a: Row, b: Row): number {
  const missed = Number(isMissed(b.criterion)) - Number(isMissed(a.criterion));
  return missed || b.costsDb - a.costsDb || (a.receiver.key < b.receiver.key ? -1 : 1);
}

function tableRow(row: Row, pageOf: (hop: string) => string | undefined): TableRow {
  const { receiver, longDb, shortDb, costsDb, criterion } = row;
  return {
    cells: [
      receiverName(receiver, pageOf),
      longDb === undefined || shortDb === undefined
        ? "at the same place, not judged"
        : `${fixed(longDb, 1)} / ${decibels(shortDb)}`.replaceAll(" ", "\u00a0"),
      longDb === undefined ? "" : decibels(costsDb),
      criterion.asked,
      isWords(criterion),
      mostWords(criterion),
      criterionMark(criterion),
    ],
  };
}

function receiverName({ of, place }: Receiver, pageOf: (hop: string) => string | undefined): Inline {
  if (!isOwn(of)) return `others, ${lineWords(of)}${of.name === undefined ? "" : `: ${plainName(of.name)}`}`;
  const text = `${of.hop} at ${place.site}`;
  const page = pageOf(of.hop);
  return page === undefined ? text : { text, to: { page } };
}
