/** Frequency plan: raster by raster who is on which channel, what is open, and which half each site transmits. */
import type { Hop } from "../../../design/design.js";
import { bandwidth, frequency } from "../../../format/numbers.js";
import {
  type ChannelUse,
  type OverlappedChannel,
  type Raster,
  rastersOf,
  type SentHop,
  siteHalves,
} from "../../../licence/rasters.js";
import type { ChannelPlan } from "../../../spectrum/channel-plans.data.js";
import { isReliable, STANDINGS, type Standing } from "../../../spectrum/standing.js";
import type { Block, Inline, Page, Section, TableRow } from "../../document/document.js";
import type { SheetWords } from "../words/sheet-words.js";
import { type DeskInput, deskPage, numberRanges, polarizationText, stateText } from "./desk-sheet.js";

export interface FrequenciesInput extends DeskInput {
  /** In the order of the text. */
  readonly hops: readonly SentHop[];
  /** Plans that the design declares. */
  readonly plans: readonly ChannelPlan[];
}

export function frequenciesSheet(input: FrequenciesInput): Page {
  const { hops, plans, words } = input;
  const rasters = rastersOf(hops, plans);
  const sections = rasters.map((raster, index) => rasterSection(raster, index, words));
  const [first] = sections;
  const led: Section[] =
    first === undefined
      ? [{ id: "none", title: words.desk.frequencies.title, blocks: [text(words.desk.none)] }]
      : [{ ...first, blocks: [text(words.desk.frequencies.told), ...first.blocks] }, ...sections.slice(1)];
  return deskPage(input, words.desk.frequencies.title, [...led, halvesSection(hops, words)]);
}

function rasterSection(raster: Raster, index: number, words: SheetWords): Section {
  const { frequencies: said } = words.desk;
  const { plan, widthHz, uses, open, unused, overlapped } = raster;
  const blocks: Block[] = [];
  const standing = standingText(uses, words);
  if (standing !== undefined) blocks.push({ type: "paragraph", text: standing });
  if (uses.length > 0) blocks.push(usesTable(uses, words));
  if (open.length > 0)
    blocks.push({
      type: "table",
      caption: said.open,
      columns: [{ title: words.desk.hop }, { title: said.open }],
      rows: open.map((hop) => ({ cells: [hop.name, openText(hop, words)] })),
    });
  if (unused.length > 0) blocks.push(text(said.unused(numberRanges(unused))));
  if (overlapped.length > 0) blocks.push(text(said.overlapped(overlappedText(overlapped))));
  const title =
    plan === undefined || widthHz === undefined
      ? said.plain
      : said.raster(plan, words.figure(bandwidth(widthHz)));
  return { id: `raster-${index + 1}`, title, blocks };
}

/** `3-4 (A-B), 7 (A-B, C-D)`: channels that the same hops send in stand together. */
function overlappedText(overlapped: readonly OverlappedChannel[]): string {
  const byHops = Map.groupBy(overlapped, ({ by }) => by.join(", "));
  return [...byHops]
    .map(([hops, those]) => `${numberRanges(those.map(({ number }) => number))} (${hops})`)
    .join("; ");
}

/** Of the row that its channels stand in, where that is not to be relied upon for each of them. */
function standingText(uses: readonly ChannelUse[], { desk }: SheetWords): Inline | undefined {
  const standings = new Set(
    uses.flatMap(({ channel }): Standing[] => {
      if (channel === undefined || isReliable(channel, channel.number)) return [];
      // A row that is reliable with a channel that nobody has seen: that there is one is from memory.
      return [STANDINGS[channel.standing].reliable ? "memory" : channel.standing];
    }),
  );
  if (standings.size === 0) return undefined;
  const said = [...standings].map((one) => desk.standings[one]).join(" ");
  return [{ text: desk.notConfirmed, mark: "unjudged" }, ` ${said} ${desk.standingNeeds}`];
}

function usesTable(uses: readonly ChannelUse[], words: SheetWords): Block {
  const { frequencies: said, hop, stateTitle } = words.desk;
  const { polarization } = words.facts;
  const withState = uses.some((use) => use.hop.state !== undefined);
  const titles = [said.channel, said.low, said.lowFrom, said.high, said.highFrom, polarization, hop];
  return {
    type: "table",
    columns: [...titles, ...(withState ? [stateTitle] : [])].map((title) => ({ title })),
    rows: uses.map((use, index) => useRow(use, uses[index - 1], withState, words)),
  };
}

/** A channel that several hops share is named once. */
function useRow(
  use: ChannelUse,
  before: ChannelUse | undefined,
  withState: boolean,
  words: SheetWords,
): TableRow {
  const { channel, hop } = use;
  const hz = (value: number | undefined) =>
    value === undefined ? words.common.notStated : words.figure(frequency(value));
  const isSame = channel !== undefined && channel.number === before?.channel?.number;
  return {
    cells: [
      channel === undefined ? "–" : { text: String(channel.number), mark: isSame ? "quiet" : "strong" },
      hz(use.lowHz),
      use.lowFrom ?? "–",
      hz(use.highHz),
      use.highFrom ?? "–",
      polarizationText(use.polarizations, words),
      hop.name,
      ...(withState ? [stateText(hop, words)] : []),
    ],
  };
}

function openText({ openChannel }: Hop, { desk }: SheetWords): string {
  const { frequencies: said } = desk;
  return openChannel === undefined
    ? said.noChannel
    : `${said.openChannel}, ${said.choices(openChannel.count)}`;
}

function halvesSection(hops: readonly SentHop[], words: SheetWords): Section {
  const { frequencies: said } = words.desk;
  const all = siteHalves(hops.map(({ hop }) => hop));
  const mixed = all.filter(({ low, high }) => low.length > 0 && high.length > 0);
  const names = (those: readonly Hop[]) =>
    those.length === 0 ? "–" : those.map(({ name }) => name).join(", ");
  const rows = all.map(({ site, band, low, high }): TableRow => {
    const isMixed = low.length > 0 && high.length > 0;
    return {
      cells: [
        isMixed ? [`${site} `, { text: said.conflict, mark: "error" }] : site,
        band,
        names(low),
        names(high),
      ],
    };
  });
  const blocks: Block[] = [
    text(said.sitesTold),
    {
      type: "paragraph",
      text:
        mixed.length === 0
          ? said.noConflicts
          : { text: said.conflicts(mixed.length), mark: "error" as const },
    },
  ];
  if (rows.length > 0)
    blocks.push({
      type: "table",
      columns: [words.common.site, said.band, said.transmitsLow, said.transmitsHigh].map((title) => ({
        title,
      })),
      rows,
    });
  return { id: "halves", title: said.sites, blocks };
}

function text(text: string): Block {
  return { type: "paragraph", text };
}
