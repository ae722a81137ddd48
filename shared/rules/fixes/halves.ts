import { address } from "../../design/address.js";
import { decision, type Fixes } from "./mending.js";

/** Exchanges high and low of both ends of the hop. */
export const exchangeHalves: Fixes = ({ hop }) => {
  if (!hop || hop.ends.some(({ transmits }) => transmits === undefined)) return [];
  return [
    decision(
      `Exchange high and low of ${hop.name} (changes both its ends)`,
      ...hop.ends.map(
        ({ site, transmits }) =>
          ({
            do: "replace",
            at: address("hop", hop.name, site.name, "transmits"),
            argument: "value",
            by: transmits === "high" ? "low" : "high",
          }) as const,
      ),
    ),
  ];
};
