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
    if (fitting.what !== "plan") return fitting;
    return { ...fitting, choices: plansWithin(radio.tuning, own).map(({ id }) => id) };
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

function worksIn(
  { duplexSpacingHz, tuning }: PlanRadio,
  { lowHz, highHz }: { lowHz: number; highHz: number },
) {
  const apart = duplexSpacingHz === undefined || Math.abs(highHz - lowHz - duplexSpacingHz) <= TOLERANCE_HZ;
  return apart && (tuning === undefined || (lowHz >= tuning.fromHz && highHz <= tuning.toHz));
}

/** Plans of which some channel lies in a tuning range; without a range all. */
export function plansWithin(
  tuning: PlanRadio["tuning"],
  own: readonly ChannelPlan[] = [],
): readonly ChannelPlan[] {
  const plans = [...own, ...CHANNEL_PLANS];
  if (tuning === undefined) return plans;
  return plans.filter((plan) =>
    plan.rows.some((row) =>
      [row.first, row.last].some((n) => {
        const { lowHz, highHz } = rowChannel({ plan, row }, n);
        return [lowHz, highHz].some((hz) => hz >= tuning.fromHz && hz <= tuning.toHz);
      }),
    ),
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
