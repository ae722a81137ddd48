import type { Address } from "../design/address.js";
import { dataKey } from "../evaluate/account/data.js";
import type { InputCode, InputUsed } from "../evaluate/account/input.js";
import { inputShown } from "../words/inputs.js";
import { shown } from "../words/message.js";
import { exampleHop } from "./example-preamble.js";
import { gathering } from "./rule.js";
import { sharedRemarks } from "./shared-remarks.js";

/** Where the text would state what a default stands in for. */
const SUPPLY: {
  readonly [C in InputCode]?: {
    readonly at: Address;
    readonly help: string;
    /** Its note is this help. */
    readonly noNote?: true;
  };
} = {
  "median-k": { at: "network / climate", help: "State `k` in the climate of the network or of the hop." },
  "canceller-gain": { at: "network", help: "State `xpic-gain` in the radio.", noNote: true },
  "antenna-gain": { at: "network", help: "State `gain` in the antenna." },
  "national-share": { at: "network", help: "State `share` in the objective's `quality`." },
};

/** The assumed gradient has a rule of its own, a waveguide that is still to be chosen too. */
const TOLD_APART: readonly InputCode[] = ["dn1", "guide-loss"];

export const defaultInputs = gathering({
  scope: "network",
  ofResults: true,
  id: "default-inputs",
  severity: "info",
  title: "A default stands in for a fact of the design",
  checks:
    "Inputs of hops with an availability asked for that neither design, catalogue, map nor terrain gives. The reference atmosphere is not among them. Said once for all hops.",
  why: "A figure is as good as its inputs; who signs it should know which of them nobody looked up.",
  fix: "State the fact that the message names.",
  source: "common practice",
  good: exampleHop(),
  bad: `antenna DISH-18-X {\n  diameter 0.6 m\n}\n\n${exampleHop({
    keld: "antenna DISH-18-X at 40 m\n    transmits high",
  })}`,
  ...sharedRemarks("default-inputs", (hop, { availability, inputs }) => {
    if (hop.objective?.availabilityPercent === undefined || availability === undefined) return [];
    return inputs
      .filter(({ origin, code }) => origin === "default" && !TOLD_APART.includes(code))
      .map((input) => {
        const { at = "network", help } = SUPPLY[input.code] ?? {};
        return { about: dataKey(input), message: `${textOf(input)} is a default`, at, help };
      });
  }),
});

function textOf(input: InputUsed): string {
  const { name, value, note } = inputShown(input);
  const said = note === undefined || SUPPLY[input.code]?.noNote ? "" : ` (${shown(note)})`;
  return `${shown(name)} ${shown(value)}${said}`;
}
