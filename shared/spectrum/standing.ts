/** How far the figures of a channel plan are confirmed, row by row: the code in the table, the words here. */

export type Standing =
  | "confirmed"
  | "published-table"
  | "licensed-links"
  | "nested"
  | "edges"
  | "guard-edge"
  | "merged"
  | "memory"
  | "low-confidence"
  | "stated";

interface Words {
  readonly short: string;
  /** For the page of the plans: what stands behind a row that is told so. */
  readonly means: string;
  /** The raster may be relied upon. */
  readonly reliable: boolean;
}

export const STANDINGS: Readonly<Record<Standing, Words>> = {
  confirmed: {
    short: "confirmed",
    means: "the formula was read in a plan of a national regulator that says it follows the named edition",
    reliable: true,
  },
  "published-table": {
    short: "confirmed by a published channel table",
    means: "every pair was read in a published channel table of radio equipment",
    reliable: true,
  },
  "licensed-links": {
    short: "confirmed by licensed links",
    means:
      "frequency pairs of licensed links, in open data, lie exactly on this row and on no other possible one: raster and duplex spacing are confirmed, the count of channels is from memory",
    reliable: true,
  },
  nested: {
    short: "by nesting of the confirmed rows",
    means:
      "the channels are whole parts or whole multiples of those of a row that is confirmed or seen in licences",
    reliable: true,
  },
  edges: {
    short: "derived from confirmed edges",
    means: "channel edges and counts were read, the formula follows from them",
    reliable: true,
  },
  "guard-edge": {
    short: "derived from a guard edge that was read; duplex spacing from memory",
    means: "the row is what fits between the guard edge and the halves",
    reliable: false,
  },
  merged: {
    short: "derived by merging channels of another row",
    means: "computed from another row of the same plan; the numbers of the channels are not confirmed",
    reliable: false,
  },
  memory: {
    short: "from memory, unconfirmed",
    means: "compared with nothing but the edges of the band",
    reliable: false,
  },
  "low-confidence": {
    short: "from memory, low confidence",
    means: "recalled with doubt",
    reliable: false,
  },
  stated: { short: "stated in the design", means: "declared with `plan`", reliable: true },
};

/** What a row rests on. */
export interface RowStanding {
  readonly standing: Standing;
  /**
   * First and last channel that a witness shows, where it need not show all of a row whose raster it
   * confirms: that there are channels beyond is from memory.
   */
  readonly witnessed?: readonly [first: number, last: number];
}

/** The words for a whole row: `confirmed by licensed links for channels 7 to 16; the count of channels is from memory`. */
export function standingText(row: RowStanding): string {
  return row.witnessed === undefined
    ? STANDINGS[row.standing].short
    : `${shownText(row, row.witnessed)}; the count of channels is from memory`;
}

/** The words for one channel of the row. */
export function channelStandingText(row: RowStanding, channel: number): string {
  return row.witnessed === undefined || isWitnessed(row, channel)
    ? STANDINGS[row.standing].short
    : `${shownText(row, row.witnessed)}; that there is a channel ${channel} is from memory`;
}

/** Whether raster and duplex spacing of the row, and that it has this channel, may be relied upon. */
export function isReliable(row: RowStanding, channel: number): boolean {
  return STANDINGS[row.standing].reliable && isWitnessed(row, channel);
}

/** Whether a witness shows the channel, or channels on both sides of it. */
function isWitnessed({ witnessed }: RowStanding, channel: number): boolean {
  return witnessed === undefined || (channel >= witnessed[0] && channel <= witnessed[1]);
}

function shownText({ standing }: RowStanding, [first, last]: readonly [number, number]): string {
  const shown = first === last ? `channel ${first}` : `channels ${first} to ${last}`;
  return `${STANDINGS[standing].short} for ${shown}`;
}
