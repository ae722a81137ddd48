import { bandwidth } from "../format/numbers.js";
import { CHANNEL_PLANS, type ChannelPlan, type ChannelRow } from "./channel-plans.data.js";
import type { RowStanding } from "./standing.js";

/** Centre frequencies of a channel, and how far the plan's figures are confirmed. */
export interface ChannelFrequencies extends RowStanding {
  readonly lowHz: number;
  readonly highHz: number;
  readonly plan: string;
}

/** Why there is no such channel, with what there is instead. */
export interface NoChannel {
  readonly what: "plan" | "width" | "number";
  readonly message: string;
  readonly choices: readonly string[];
}

/** What a radio says of the plan it is used with. */
export interface PlanRadio {
  readonly duplexSpacingHz?: number;
  readonly tuning?: { readonly fromHz: number; readonly toHz: number };
  readonly lowHalf?: { readonly fromHz: number; readonly toHz: number };
  readonly highHalf?: { readonly fromHz: number; readonly toHz: number };
}

/**
 * Frequencies of a channel of a plan. A plan is named by its identifier (`F.385-7425-7725`) or by the
 * start of it (`F.595`) where only one plan of that start has the channel, or only one that the radio can work in.
 * @param widthHz channel width, matched to 1 kHz
 * @param radio settles which plan is meant where several have the channel
 * @source shared/spectrum/channel-plans.data.ts; the standing of the row says how far it is confirmed
 */
export function channelFrequencies(
  planName: string,
  widthHz: number,
  channel: number,
  own: readonly ChannelPlan[] = [],
  radio: PlanRadio = {},
): ChannelFrequencies | NoChannel {
  const fitting = channelRows(planName, widthHz, channel, own);
  if ("what" in fitting) {
    return { ...fitting, choices: choicesFor(fitting, planName, widthHz, radio, own) };
  }
  const usable = fitting.filter((one) => worksIn(radio, rowChannel(one, channel)));
  const meant = usable.length === 1 ? usable : fitting;
  if (meant.length > 1) {
    const names = meant.map(
      ({ plan, row }) => `${plan.id} (halves ${bandwidth((row.returnMHz - row.goMHz) * 1e6)} apart)`,
    );
    const choices = meant.map(({ plan }) => plan.id);
    return { what: "plan", message: `${planName} can mean ${names.join(" or ")}`, choices };
  }
  const { plan, row } = meant[0]!;
  const { standing, witnessed } = row;
  return { ...rowChannel({ plan, row }, channel), plan: plan.id, standing, ...(witnessed && { witnessed }) };
}

/** What there is instead and the radio works in; where it works in none of it, all that there is. */
function choicesFor(
  { what, choices }: NoChannel,
  planName: string,
  widthHz: number,
  radio: PlanRadio,
  own: readonly ChannelPlan[],
): readonly string[] {
  if (what === "plan") return plansFor(radio, own).map(({ id }) => id);
  const rows = plansNamed(planName, own).flatMap((plan) => plan.rows.map((row) => ({ plan, row })));
  const usable = rows.filter((one) => channelsIn(radio, one).length > 0);
  const left =
    what === "width"
      ? usable
          .toSorted((a, b) => a.row.widthMHz - b.row.widthMHz)
          .map(({ row }) => bandwidth(row.widthMHz * 1e6))
      : usable.flatMap((one) => {
          const numbers = hasWidth(one.row, widthHz) ? channelsIn(radio, one) : [];
          return numbers.length > 0 ? [`${numbers[0]} to ${numbers.at(-1)}`] : [];
        });
  return left.length > 0 ? [...new Set(left)] : choices;
}

/** Numbers of a row's channels that the radio can work in. */
function channelsIn(radio: PlanRadio, { plan, row }: PlanRow): readonly number[] {
  const numbers = Array.from({ length: row.last - row.first + 1 }, (_, index) => row.first + index);
  return numbers.filter((n) => worksIn(radio, rowChannel({ plan, row }, n)));
}

/** A row, and the plan that it stands in. */
export interface PlanRow {
  readonly plan: ChannelPlan;
  readonly row: ChannelRow;
}

/**
 * The rows that a plan's name, a width and a number leave, in the order of the table; several where several
 * plans begin alike.
 * @param widthHz channel width, matched to 1 kHz; without it the rows of every width
 * @param channel without it the rows whatever their channels
 */
export function channelRows(
  planName: string,
  widthHz: number | undefined,
  channel: number | undefined,
  own: readonly ChannelPlan[] = [],
): readonly PlanRow[] | NoChannel {
  const all = plansNamed(planName, own).flatMap((plan) => plan.rows.map((row) => ({ plan, row })));
  if (all.length === 0)
    return { what: "plan", message: `there is no channel plan ${planName}`, choices: planNames(own) };
  const rows = all.filter(({ row }) => widthHz === undefined || hasWidth(row, widthHz));
  if (rows.length === 0) {
    const widths = [...new Set(all.map(({ row }) => row.widthMHz))].sort((a, b) => a - b);
    return {
      what: "width",
      message: `no channel of ${planName} is ${bandwidth(widthHz!)} wide`,
      choices: widths.map((width) => bandwidth(width * 1e6)),
    };
  }
  const fitting = rows.filter(
    ({ row }) => channel === undefined || (channel >= row.first && channel <= row.last),
  );
  if (fitting.length > 0) return fitting;
  const ranges = [...new Set(rows.map(({ row }) => `${row.first} to ${row.last}`))];
  const wide = widthHz === undefined ? "" : ` of ${bandwidth(widthHz)}`;
  return {
    what: "number",
    message: `${planName} has no channel ${channel}${wide}; there are ${ranges.join(" and ")}`,
    choices: ranges,
  };
}

/** Whether the channels of a row are of that width, to 1 kHz. */
export function hasWidth({ widthMHz }: ChannelRow, widthHz: number): boolean {
  return Math.abs(widthMHz * 1e6 - widthHz) < TOLERANCE_HZ;
}

/** Rounding of stated frequencies. */
const TOLERANCE_HZ = 1000;

/** Whether a radio has the spacing of a channel and tunes to both of its frequencies; what it does not state fits. */
export function worksIn(
  { duplexSpacingHz, tuning, lowHalf, highHalf }: PlanRadio,
  { lowHz, highHz }: { lowHz: number; highHz: number },
): boolean {
  const apart = duplexSpacingHz === undefined || Math.abs(highHz - lowHz - duplexSpacingHz) <= TOLERANCE_HZ;
  const within = (range: PlanRadio["tuning"], hz: number) =>
    range === undefined || (range.fromHz <= hz && hz <= range.toHz);
  return (
    apart &&
    within(tuning, lowHz) &&
    within(tuning, highHz) &&
    within(lowHalf, lowHz) &&
    within(highHalf, highHz)
  );
}

/** Plans that a radio can work in some channel of; of one that states neither tuning nor spacing all. */
export function plansFor(radio: PlanRadio, own: readonly ChannelPlan[] = []): readonly ChannelPlan[] {
  return [...own, ...CHANNEL_PLANS].filter((plan) =>
    plan.rows.some((row) => channelsIn(radio, { plan, row }).length > 0),
  );
}

export function planNames(own: readonly ChannelPlan[] = []): readonly string[] {
  return [...own, ...CHANNEL_PLANS].map((plan) => plan.id);
}

/** Plans of that name or that start; the design's own plans hide built-in ones. */
export function plansNamed(name: string, own: readonly ChannelPlan[] = []): readonly ChannelPlan[] {
  for (const plans of [own, CHANNEL_PLANS]) {
    const exact = plans.filter((plan) => plan.id === name);
    if (exact.length > 0) return exact;
  }
  return CHANNEL_PLANS.filter((plan) => plan.id.startsWith(`${name}-`));
}

/** Centre frequencies of channel n of a row, to the hertz. */
export function rowChannel({ plan, row }: PlanRow, n: number): { lowHz: number; highHz: number } {
  const hz = (offsetMHz: number) => Math.round((plan.referenceMHz + offsetMHz + row.stepMHz * n) * 1e6);
  return { lowHz: hz(row.goMHz), highHz: hz(row.returnMHz) };
}
