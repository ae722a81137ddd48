/** A channel plan explained: its rows, every channel with both frequencies, and how far each row is confirmed. */

import { channelRows, type NoChannel, rowChannel } from "../spectrum/channel-plan.js";
import type { ChannelPlan, ChannelRow } from "../spectrum/channel-plans.data.js";
import type { RowStanding } from "../spectrum/standing.js";

export interface PlanExplanation {
  readonly plan: string;
  readonly band: string;
  readonly documents: readonly string[];
  readonly notes: readonly string[];
  readonly rows: readonly PlanRowExplanation[];
}

export interface PlanRowExplanation extends RowStanding {
  readonly widthHz: number;
  /** From one channel's centre to the next. */
  readonly stepHz: number;
  /** From the lower to the upper frequency of a channel. */
  readonly duplexSpacingHz: number;
  /** Where channels of the row were seen. */
  readonly witness?: string;
  readonly note?: string;
  readonly channels: readonly ExplainedChannel[];
}

export interface ExplainedChannel {
  readonly number: number;
  readonly lowHz: number;
  readonly highHz: number;
}

/** What is asked: a plan, and what narrows it. */
export interface AskedPlan {
  readonly plan: string;
  readonly widthHz?: number;
  readonly channel?: number;
}

/**
 * The plans of that name or that start, in the order of the table, each with the rows and channels asked for.
 * @param own plans of the design, which go before built-in ones of the same name
 */
export function explainPlans(
  { plan, widthHz, channel }: AskedPlan,
  own: readonly ChannelPlan[] = [],
): readonly PlanExplanation[] | NoChannel {
  const rows = channelRows(plan, widthHz, channel, own);
  if ("what" in rows) return rows;
  const byPlan = Map.groupBy(rows, (one) => one.plan);
  return [...byPlan].map(([{ id, band, documents, notes = [] }, fitting]) => ({
    plan: id,
    band,
    documents,
    notes,
    rows: fitting.map(({ plan, row }) => explainRow(plan, row, channel)),
  }));
}

/** @param only the one channel; without it all of the row */
function explainRow(plan: ChannelPlan, row: ChannelRow, only?: number): PlanRowExplanation {
  const { standing, witnessed, witness, note } = row;
  const numbers =
    only === undefined ? Array.from({ length: row.last - row.first + 1 }, (_, i) => row.first + i) : [only];
  const channels = numbers.map((number) => ({ number, ...rowChannel({ plan, row }, number) }));
  const { lowHz, highHz } = rowChannel({ plan, row }, row.first);
  return {
    widthHz: Math.round(row.widthMHz * 1e6),
    stepHz: Math.round(row.stepMHz * 1e6),
    duplexSpacingHz: highHz - lowHz,
    standing,
    ...(witnessed && { witnessed }),
    ...(witness !== undefined && { witness }),
    ...(note !== undefined && { note }),
    channels,
  };
}
