import { nth } from "../../design/address.js";
import type { Fixes } from "./mending.js";

/** An acceptance that answers nothing. */
export const removeAcceptance: Fixes = ({ finding }) => {
  const index = Number(/accept(?:#(\d+))?$/.exec(finding.at)?.[1] ?? 0);
  return [
    {
      title: "Remove this acceptance (nothing is accepted by it)",
      changes: [{ do: "remove", at: `${finding.at.split(" / ")[0]} / ${nth("accept", index)}` }],
      changesDecision: false,
    },
  ];
};
