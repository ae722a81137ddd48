import type { Address } from "../design/address.js";
import type { InputUsed } from "../evaluate/result.js";
import { exampleHop } from "./example-preamble.js";
import { ASSUMED_INPUT } from "./multipath-assumed.js";
import type { NetworkRule } from "./rule.js";
import { remark, reportShared } from "./shared-remarks.js";

/** Where the text would state what a default stands in for, by the name of the input. */
const SUPPLY: readonly (readonly [name: RegExp, at: Address, help: string])[] = [
  [/^median k$/, "network / climate", "State `k` in the climate of the network or of the hop."],
  [/^gain of the cross-polar/, "network", "State `xpic-gain` in the radio."],
  [/^gain of /, "network", "State `gain` in the antenna."],
  [/^share of the national/, "network", "State `share` in the objective's `quality`."],
];

const ESTIMATED_GUIDE = /^loss of the waveguide at /;

export const defaultInputs: NetworkRule = {
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
  check(context) {
    const remarks = new Map<string, { hops: string[]; at: Address; help?: string }>();
    for (const hop of context.design.hops.values()) {
      if (hop.objective?.availabilityPercent === undefined) continue;
      const result = context.results.get(hop.name);
      if (result?.availability === undefined) continue;
      for (const input of result.inputs) {
        // The assumed gradient has a rule of its own, a waveguide that is still to be chosen too.
        if (input.origin !== "default" || input.name === ASSUMED_INPUT || ESTIMATED_GUIDE.test(input.name))
          continue;
        const [, at, help] = SUPPLY.find(([name]) => name.test(input.name)) ?? [
          undefined,
          "network",
          undefined,
        ];
        remark(remarks, `${textOf(input)} is a default`, hop.name, at, help);
      }
    }
    reportShared(context, defaultInputs.id, remarks);
  },
};

function textOf({ name, value, note }: InputUsed): string {
  return note === undefined || note.includes("`") ? `${name} ${value}` : `${name} ${value} (${note})`;
}
