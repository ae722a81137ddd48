/** What a signal passes: the name of the element, and what it is. */
import { GUIDE_TO_CHOOSE } from "../equipment/guide-to-choose.js";
import type { LevelElement } from "../evaluate/account/level-result.js";
import { bandwidth, metres } from "../format/numbers.js";
import { type Message, message } from "./message.js";

interface ElementWords<T> {
  readonly name: (element: T) => string;
  /** For example the catalogue name and length. */
  readonly detail?: (element: T) => string | undefined;
}

type Code = LevelElement["code"];
type ElementOf<C extends Code> = Extract<LevelElement, { readonly code: C }>;

const COUPLER_WORDS: Readonly<Record<ElementOf<"coupler">["kind"], string>> = {
  coupler: "coupler",
  splitter: "receive splitter",
  relay: "transmit relay",
  orthomode: "orthomode transducer",
};

const antenna = ({ antenna: name }: ElementOf<"transmit-antenna" | "receive-antenna">) => name;

const ELEMENT_WORDS: { readonly [C in Code]: ElementWords<Extract<LevelElement, { readonly code: C }>> } = {
  transmitter: {
    name: () => "transmitter output",
    detail: ({ radio = "radio", bandwidthHz, modulation }) =>
      `${radio}, ${bandwidth(bandwidthHz)} ${modulation}`,
  },
  coupler: {
    name: ({ kind, arm }) =>
      kind === "coupler" || kind === "splitter"
        ? [COUPLER_WORDS[kind], arm, "arm"].filter((word) => word !== undefined).join(" ")
        : COUPLER_WORDS[kind],
    detail: ({ coupler }) => coupler,
  },
  "branching-network": { name: () => "branching network" },
  feeder: { name: () => "feeder", detail: ({ feeder, lengthM }) => `${feeder}, ${metres(lengthM)}` },
  "guide-to-choose": {
    name: () => GUIDE_TO_CHOOSE,
    detail: ({ lengthM }) => `flexible, ${metres(lengthM)}, estimate`,
  },
  "further-loss": { name: () => "further loss" },
  "transmit-antenna": { name: () => "transmit antenna", detail: antenna },
  "receive-antenna": { name: () => "receive antenna", detail: antenna },
  "free-space": { name: () => "free space" },
  gases: { name: () => "gases" },
  diffraction: { name: () => "diffraction" },
  receiver: { name: () => "receiver input", detail: ({ radio = "radio" }) => radio },
};

export function elementMessage(element: LevelElement): {
  readonly name: Message;
  readonly detail?: Message;
} {
  const words = ELEMENT_WORDS[element.code] as ElementWords<LevelElement>;
  const detail = words.detail?.(element);
  return {
    name: message(words.name(element)),
    ...(detail !== undefined && { detail: message(detail) }),
  };
}
