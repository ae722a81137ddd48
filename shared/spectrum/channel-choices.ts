/** Channels that exist and a radio tunes. */
import type { Radio } from "../design/catalogue.js";
import { bandwidth } from "../format/numbers.js";
import { channelFrequencies, plansFor, plansNamed, worksIn } from "./channel-plan.js";
import type { ChannelPlan } from "./channel-plans.data.js";
import type { RowStanding } from "./standing.js";

export interface ChannelChoice extends RowStanding {
  readonly plan: string;
  readonly widthHz: number;
  readonly number: number;
  readonly lowHz: number;
  readonly highHz: number;
}

/**
 * Every channel of some plans that the radio tunes to with its spacing; of a radio that states neither all.
 * @param own plans of the design, beside those that are built in
 * @param planName undefined: all plans
 */
export function channelChoices(
  own: readonly ChannelPlan[],
  radio: Radio | undefined,
  planName?: string,
): readonly ChannelChoice[] {
  const plans = planName === undefined ? plansFor(radio ?? {}, own) : plansNamed(planName, own);
  return plans.flatMap(({ id, rows }) =>
    rows.flatMap(({ widthMHz, first, last }) =>
      Array.from({ length: last - first + 1 }, (_, index) => first + index).flatMap(
        (number): ChannelChoice[] => {
          const widthHz = Math.round(widthMHz * 1e6);
          const found = channelFrequencies(id, widthHz, number, own, radio);
          return "what" in found || !worksIn(radio ?? {}, found)
            ? []
            : [{ ...found, plan: id, widthHz, number }];
        },
      ),
    ),
  );
}

/** As a hop writes it: `F.595 / 55 MHz / 4`. */
export function channelText({ plan, widthHz, number }: ChannelChoice): string {
  return `${plan} / ${bandwidth(widthHz)} / ${number}`;
}
