/** What a finding proposes to the hop, as changes of its facts. */
import { address } from "../../design/address.js";
import { type Change, changeWords, modesStatement, withSpaceDiversity } from "../../design/change.js";
import type { Hop } from "../../design/design.js";
import type { FactChange } from "../../design/fact-change.js";
import { trimmed } from "../../format/numbers.js";
import { decision, type Fixes } from "./mending.js";

export const proposedChanges: Fixes = ({ finding, hop }) =>
  hop === undefined
    ? []
    : (finding.changes ?? []).map((change) =>
        decision(
          `Take ${changeWords(change)} (changes the ${DECIDES[change.kind]})`,
          ...factsOf(hop, change),
        ),
      );

export const DECIDES: Readonly<Record<Change["kind"], string>> = {
  polarization: "licence and the mounting",
  antenna: "equipment",
  radio: "equipment",
  modes: "modes in use",
  "space-diversity": "equipment",
  power: "licence",
};

export function factsOf(hop: Hop, change: Change): readonly FactChange[] {
  const at = (...site: readonly string[]) => address("hop", hop.name, ...site);
  switch (change.kind) {
    case "polarization":
      return [{ do: "state", in: at(), line: `polarization ${change.to}` }];
    case "antenna":
      // The name alone: the line may state a height.
      return change.sites.map((site) => ({
        do: "replace",
        at: at(site, "antenna"),
        argument: "antenna",
        by: change.antenna,
      }));
    case "radio":
      return [{ do: "state", in: at(), line: `radio ${change.radio}` }];
    case "modes":
      // A fixed mode and a range have words of their own, and only one of them may stand.
      return [{ do: "state", in: at(), line: modesStatement(change), instead: ["mode", "modes"] }];
    case "space-diversity":
      return [
        {
          do: "state",
          in: at(),
          line: `arrangement ${withSpaceDiversity(hop)}`,
        },
        ...change.second.map(
          ({ site, antenna, heightM }): FactChange => ({
            do: "state",
            in: at(site),
            line: `diversity-antenna ${antenna} at ${trimmed(heightM, 2)} m`,
          }),
        ),
      ];
    case "power":
      return [{ do: "state", in: at(change.site), line: `power ${trimmed(change.powerDbm, 1)} dBm` }];
  }
}
