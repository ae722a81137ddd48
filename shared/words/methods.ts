/** Methods in words: their standing, and the whole row. */
import { METHODS, type MethodId } from "../evaluate/account/methods.js";
import type { MethodStanding } from "../propagation/method.js";
import { type Message, message } from "./message.js";

const STANDINGS: Readonly<Record<MethodStanding, string>> = {
  verified: "verified",
  "read in implementations": "read in implementations",
  "from memory": "from memory, not checked against the Recommendation",
  "own rule": "our own rule",
  "common practice": "common practice, unconfirmed",
};

/** How far a method is vouched for. @param source what it is after; not every document is a Recommendation */
export function standingMessage(standing: MethodStanding, source = "Rec."): Message {
  const told = STANDINGS[standing];
  return message(source.startsWith("Rec.") ? told : told.replace("the Recommendation", "the standard"));
}

/** A method as it is shown: what it does, after which source, and how it stands. */
export interface MethodShown {
  readonly what: Message;
  readonly source: Message;
  readonly standing: Message;
}

export function methodShown(id: MethodId): MethodShown {
  const { what, source, standing } = METHODS[id];
  return { what: message(what), source: message(source), standing: standingMessage(standing, source) };
}
