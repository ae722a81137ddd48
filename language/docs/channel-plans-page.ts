/** The reference of the channel plans that come with Hopwright, made from their table. */
import {
  CHANNEL_PLANS,
  type ChannelPlan,
  type ChannelRow,
} from "../../shared/spectrum/channel-plans.data.js";
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
  return `${[HEAD, overview, ...CHANNEL_PLANS.map(section)].join("\n\n")}\n`;
}

const HEAD = `# Channel plans

Made from the table of plans (shared/spectrum/channel-plans.data.ts); do not edit by hand.

A hop names its channel by plan, width and number: \`channel F.595 / 55 MHz / 4\`. The start of a plan's name is enough
where only one plan of that start has such a channel. Every plan is for frequency-division duplex: channel n has one
frequency in the lower half and one in the upper half, and each end transmits in one of them.

**Before a frequency goes into a licence, look it up in the plan of your administration.** No text of a Recommendation
was read for these tables. What stands behind a row is told with it: \`confirmed\` was read in a national plan that says it
follows the named edition; \`derived\` and \`by nesting\` follow from confirmed rows by arithmetic; \`from memory\` was
compared with nothing, and every hop that uses such a row is told so
([channel-plan-unconfirmed](rules/channel-plan-unconfirmed.md)). Edition labels are from memory. A plan that differs, or is
missing here, is declared in the design ([plan](properties.md#plan-at-the-left-margin)); it goes before a built-in one of
the same name.`;

function section({ id, band, documents, referenceMHz, rows }: ChannelPlan): string {
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
    row.status,
  ]);
  return `## ${id}\n\n${band}. ${documents.join("; ")}.\n\n${table(head, lines)}`;
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
