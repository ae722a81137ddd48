import { address } from "../../design/address.js";
import type { Hop } from "../../design/design.js";
import type { Fix } from "../../design/fact-change.js";
import { arrangementByName } from "../../radio/arrangements.js";
import { decision } from "./mending.js";

/** Another arrangement of the same hop, where there is one of the name; none where an end has its own, which would stay. */
export function takeArrangement(hop: Hop, name: string): readonly Fix[] {
  if (name === hop.arrangement.name || !arrangementByName(name)) return [];
  if (hop.ends.some((end) => end.arrangement !== undefined)) return [];
  return [
    decision(`Take arrangement ${name}`, {
      do: "state",
      in: address("hop", hop.name),
      line: `arrangement ${name}`,
    }),
  ];
}
