import { address } from "../../design/address.js";
import type { Hop, HopEnd } from "../../design/design.js";
import { interfacesFit } from "../../equipment/interfaces.js";
import { exampleHop } from "../example-preamble.js";
import type { HopRule } from "../rule.js";

export const interfaceMismatch: HopRule = {
  scope: "hop",
  id: "interface-mismatch",
  severity: "error",
  title: "Parts that are bolted together must have the same flange",
  checks:
    "Waveguide interfaces of unit, coupler, feeder and antenna of each end, each against the next part that states one.",
  why: "Another size, another family or a round flange on a rectangular one does not bolt together, and it is found on the tower.",
  fix: "Order the part with the other flange, or a transition as a part of its own.",
  source: "IEC 60154-2 for names of flanges, from memory; common practice",
  needs: [],
  good: `antenna A18-06F like A18-06 {
  interface UBR220
}

feeder FLEX-18 {
  kind flexible
  interface PBR220
  loss 1.1 dB/m at 18.7 GHz
}

${exampleHop({ keld: "antenna A18-06F at 40 m\n    feeder FLEX-18 length 0.9 m\n    transmits high" })}`,
  bad: `antenna A18-06F like A18-06 {
  interface UBR220
}

feeder FLEX-26 {
  kind flexible
  interface PBR260
  loss 1.1 dB/m at 18.7 GHz
}

${exampleHop({ keld: "antenna A18-06F at 40 m\n    feeder FLEX-26 length 0.9 m\n    transmits high" })}`,
  check({ hop, report }) {
    for (const end of hop.ends) {
      const parts = chain(hop, end);
      for (const [index, part] of parts.entries()) {
        const next = parts[index + 1];
        if (part.interface === undefined || next?.interface === undefined) continue;
        const { fits, remark } = interfacesFit(part.interface, next.interface);
        if (fits) continue;
        report({
          at: address("hop", hop.name, end.site.name, next.fact),
          message: `${part.name} (${part.interface}) does not bolt to ${next.name} (${next.interface}) at ${end.site.name}: ${remark}`,
        });
      }
    }
  },
};

interface MountedPart {
  readonly name: string;
  readonly fact: string;
  readonly interface?: string;
}

/** From the unit to the antenna. Parts that state nothing stay between: what is behind them is not bolted to what is before. */
function chain({ radio }: Hop, { coupler, feeder, antenna }: HopEnd): readonly MountedPart[] {
  return [
    radio && { name: radio.name, fact: "radio", interface: radio.unit?.interface },
    coupler && { name: coupler.name, fact: "coupler", interface: coupler.interface },
    feeder && { name: feeder.name, fact: "feeder", interface: feeder.interface },
    antenna && { name: antenna.name, fact: "antenna", interface: antenna.mount?.interface },
  ].filter((part) => part !== undefined);
}
