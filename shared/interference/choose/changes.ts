/** What a proposal states, as changes of facts: only what was not stated. */
import { address } from "../../design/address.js";
import type { FactChange } from "../../design/fact-change.js";
import { bandwidth } from "../../format/numbers.js";
import { channelText } from "../../spectrum/channel-choices.js";
import type { Proposed } from "./propose.js";

export function proposedChanges({ open, choice, polarization }: Proposed): readonly FactChange[] {
  const { name } = open.hop;
  const number: FactChange = {
    do: "first",
    of: [
      {
        do: "replace",
        at: address("hop", name, "channel"),
        argument: "width",
        by: `${bandwidth(choice.widthHz)} / ${choice.number}`,
      },
      // Plan and width are those of the network's defaults.
      { do: "state", in: address("hop", name), line: `channel ${channelText(choice)}` },
    ],
  };
  return [
    ...(open.isNumberOpen ? [number] : []),
    ...(open.isPolarizationOpen && polarization !== undefined
      ? [{ do: "state", in: address("hop", name), line: `polarization ${polarization}` } as const]
      : []),
    ...[...open.halves].map(
      ([site, half]) => ({ do: "state", in: address("hop", name, site), line: `transmits ${half}` }) as const,
    ),
  ];
}
