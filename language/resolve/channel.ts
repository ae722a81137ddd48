/** The channel that a hop states, or of which it leaves the number open. */
import type { Channel, Hop, OpenChannel } from "../../shared/design/design.js";
import { type ChannelChoice, channelChoices } from "../../shared/spectrum/channel-choices.js";
import { channelFrequencies, type NoChannel } from "../../shared/spectrum/channel-plan.js";
import { type Fact, numberOf, quantityOf, type TextProblem, wordOf } from "../facts/fact.js";
import { type Declaration, nameRange } from "../model/source-file.js";
import type { Lookup } from "./lookup.js";

export interface ChannelInUse {
  readonly channel: Channel;
  /** Its number is still to be chosen: `channel` is the one that is shown meanwhile. */
  readonly open?: OpenChannel;
  readonly halves: { readonly highHz: number; readonly lowHz: number };
}

/** @returns undefined where none is stated, or none that any plan has */
export function channelOf(
  entry: Declaration,
  fact: Fact | undefined,
  radio: Hop["radio"],
  lookup: Lookup,
  report: (problem: TextProblem) => void,
): ChannelInUse | undefined {
  const plan = wordOf(fact, "plan");
  const bandwidthHz = quantityOf(fact, "width");
  if (!fact || plan === undefined || bandwidthHz === undefined) return undefined;
  const stated = numberOf(fact, "number");
  const open = stated === undefined ? openChannelOf(plan, bandwidthHz, lookup.plans(), radio) : undefined;
  const number = stated ?? open?.number ?? 1;
  const found = channelFrequencies(plan, bandwidthHz, number, lookup.plans(), radio);
  if ("what" in found) {
    const arg = fact.args.find(({ spec }) => spec.name === found.what);
    const own = entry.fact.facts.includes(fact);
    const range = own && arg ? arg : nameRange(entry);
    report({
      rule: "unknown-channel",
      severity: "error",
      start: range.start,
      end: range.end,
      message: found.message,
      help: choicesHelp(found, radio),
    });
    return undefined;
  }
  return {
    ...(open && { open: { ...open, plan: found.plan } }),
    channel: {
      plan: found.plan,
      bandwidthHz,
      number,
      lowHz: found.lowHz,
      highHz: found.highHz,
      standing: found.standing,
      ...(found.witnessed && { witnessed: found.witnessed }),
    },
    halves: { highHz: found.highHz, lowHz: found.lowHz },
  };
}

/** @returns undefined where the plan has no such width; of channels that the radio tunes none of, all count */
function openChannelOf(
  plan: string,
  bandwidthHz: number,
  own: ReturnType<Lookup["plans"]>,
  radio: Hop["radio"],
): OpenChannel | undefined {
  const all = (tuning: Hop["radio"]) =>
    channelChoices(own, tuning, plan).filter(({ widthHz }) => widthHz === Math.round(bandwidthHz));
  const tuned = all(radio);
  const choices = tuned.length > 0 ? tuned : all(undefined);
  const highest = choices.reduce<ChannelChoice | undefined>(
    (found, one) => (found === undefined || one.highHz > found.highHz ? one : found),
    undefined,
  );
  if (highest === undefined) return undefined;
  const lowestHz = Math.min(...choices.map(({ lowHz }) => lowHz));
  return { plan: highest.plan, bandwidthHz, number: highest.number, count: choices.length, lowestHz };
}

const MOST_CHOICES = 12;

function choicesHelp({ what, message, choices }: NoChannel, radio: Hop["radio"]): string | undefined {
  if (what === "plan" && choices.some((name) => message.includes(name))) return "write the one that is meant";
  if (choices.length === 0 || choices.length > MOST_CHOICES)
    return what === "plan" ? "name a plan of the reference, or declare one with `plan`" : undefined;
  const where = radio && (radio.tuning ?? radio.duplexSpacingHz) ? `where ${radio.name} works ` : "";
  return `${where}there are: ${choices.join(", ")}`;
}
