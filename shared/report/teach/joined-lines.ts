/** A wiring in words: a line a joint, from indoors to the antenna. */
import { portWords } from "../../equipment/wiring/labels.js";
import type { Wiring } from "../../equipment/wiring/wiring.js";
import { shown } from "../../words/message.js";
import { joinedByMessage, partKindMessage } from "../../words/wiring.js";

/** Joints of hops; what plugs into a backplane, feeds and contacts are no part of a chain. */
export function joinedLines(wiring: Wiring): string[] {
  const words = ({ part, port }: { readonly part: string; readonly port: string }) => {
    const found = wiring.parts.get(part);
    const kind = found === undefined ? "" : `${shown(partKindMessage(found.kind))} `;
    const name = found?.name === undefined ? "" : `${found.name} `;
    return `${kind}${name}(${portWords({ part, port }, wiring)})`;
  };
  return wiring.joints
    .filter(({ carries, by }) => carries.kind === "hop" && by.kind !== "backplane")
    .map(({ ends, by }) => `${words(ends[0])} to ${words(ends[1])}: ${shown(joinedByMessage(by))}`);
}
