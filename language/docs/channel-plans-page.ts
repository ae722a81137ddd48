/** The reference of the channel plans that come with Hopwright, made from their table. */
import {
  CHANNEL_PLANS,
  type ChannelPlan,
  type ChannelRow,
} from "../../shared/spectrum/channel-plans.data.js";
import { STANDINGS, standingText } from "../../shared/spectrum/standing.js";
import { table, toHeading } from "./markdown.js";

export function channelPlansPage(): string {
  const overview = table(
    ["plan", "band", "channels MHz wide", "halves apart, MHz"],
    CHANNEL_PLANS.map((plan) => [
      toHeading(plan.id, plan.id),
      plan.band,
      distinct(plan.rows.map(({ widthMHz }) => widthMHz)),
      distinct(plan.rows.map(duplexMHz)),
    ]),
  );
  const standings = table(
    ["standing", "what stands behind it", "relied upon"],
    Object.values(STANDINGS).map(({ short, means, reliable }) => [
      short,
      means,
      reliable ? "yes" : "no, and said",
    ]),
  );
  return `${[HEAD, standings, COUNT, overview, ...CHANNEL_PLANS.map(section)].join("\n\n")}\n`;
}

const HEAD = `# Channel plans

Made from the table of plans (shared/spectrum/channel-plans.data.ts); do not edit by hand.

A hop names its channel by plan, width and number: \`channel F.595 / 55 MHz / 4\`. The start of a plan's name is enough
where only one plan of that start has such a channel. Every plan is for frequency-division duplex: channel n has one
frequency in the lower half and one in the upper half, and each end transmits in one of them.

**Before a frequency goes into a licence, look it up in the plan of your administration.** No text of a Recommendation
was read for these tables. What stands behind a row is told with it, and every hop whose channel rests on memory or on an
arithmetic that nobody confirmed is told so ([channel-plan-unconfirmed](rules/channel-plan-unconfirmed.md)). Edition
labels are from memory. A plan that differs, or is missing here, is declared in the design
([plan](properties.md#plan-at-the-left-margin)); it goes before a built-in one of the same name. \`hopwright explain F.595\`
lists every channel of a plan, \`hopwright explain F.595 / 55 MHz\` those of one width.`;

const COUNT = `A row with "for channels 7 to 16" was seen on these; the raster is theirs, but how many channels there are, and
so each channel outside them, is from memory.`;

function section(plan: ChannelPlan): string {
  const { id, band, documents, referenceMHz, notes = [], rows } = plan;
  const head = [
    "width, MHz",
    "step, MHz",
    "channels",
    "lower half, MHz",
    "upper half, MHz",
    "halves apart, MHz",
    "standing",
  ];
  const lines = rows.map((row) => [
    mhz(row.widthMHz),
    mhz(row.stepMHz),
    `${row.last - row.first + 1} (${row.first} to ${row.last})`,
    half(referenceMHz + row.goMHz, row),
    half(referenceMHz + row.returnMHz, row),
    mhz(duplexMHz(row)),
    [standingText(row), row.witness, row.note].filter(isText).join(". "),
  ]);
  return `## ${id}\n\n${band}. ${documents.join("; ")}.${notes.map((one) => ` ${one}`).join("")}\n\n${table(head, lines)}`;
}

function isText(text: string | undefined): text is string {
  return text !== undefined;
}

/** Centres of the first and the last channel. */
function half(offsetMHz: number, { first, last, stepMHz }: ChannelRow): string {
  return `${mhz(offsetMHz + first * stepMHz)} to ${mhz(offsetMHz + last * stepMHz)}`;
}

function duplexMHz({ goMHz, returnMHz }: ChannelRow): number {
  return Math.round((returnMHz - goMHz) * 1000) / 1000;
}

function distinct(values: readonly number[]): string {
  return [...new Set(values)]
    .sort((a, b) => a - b)
    .map(mhz)
    .join(", ");
}

/** To the kilohertz, without the noise of the addition. */
function mhz(value: number): string {
  return String(Math.round(value * 1000) / 1000);
}
