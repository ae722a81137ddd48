import { address } from "../../design/address.js";
import type { Hop, HopEnd } from "../../design/design.js";
import { interfacesFit } from "../../equipment/interfaces.js";
import { leadTo } from "../../equipment/mounting.js";
import { type Stand, standsOf } from "../../equipment/stands.js";
import { factsAt } from "../../radio/arrangement-pairs.js";
import { SINGLE } from "../../radio/arrangements.js";
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
  good: `antenna DISH60-18-F like DISH60-18 {
  interface UBR220
}

feeder FLEX-18 {
  kind flexible
  interface PBR220
  loss 1.1 dB/m at 18.7 GHz
}

${exampleHop({ keld: "antenna DISH60-18-F at 40 m\n    feeder FLEX-18 length 0.9 m\n    transmits high" })}`,
  bad: `antenna DISH60-18-F like DISH60-18 {
  interface UBR220
}

feeder FLEX-26 {
  kind flexible
  interface PBR260
  loss 1.1 dB/m at 18.7 GHz
}

${exampleHop({ keld: "antenna DISH60-18-F at 40 m\n    feeder FLEX-26 length 0.9 m\n    transmits high" })}`,
  check({ hop, report }) {
    for (const end of hop.ends) {
      // What leads to several antennas alike is told once.
      const told = new Set<string>();
      for (const { part, next, remark } of standsToBolt(hop, end).flatMap((stand) =>
        unfit(hop, end, stand),
      )) {
        const message = `${part.name} (${part.interface}) does not bolt to ${next.name} (${next.interface}) at ${end.site.name}: ${remark}`;
        if (told.has(message)) continue;
        told.add(message);
        report({ at: address("hop", hop.name, end.site.name, next.fact), message });
      }
    }
  },
};

interface MountedPart {
  readonly name: string;
  readonly fact: string;
  readonly interface?: string;
}

/** The first also before its antenna is stated. */
function standsToBolt(hop: Hop, end: HopEnd): readonly Stand[] {
  const stands = standsOf(end, factsAt(hop, end) ?? SINGLE);
  return stands.filter(({ antenna }, index) => index === 0 || antenna !== undefined);
}

function unfit(hop: Hop, end: HopEnd, stand: Stand) {
  const parts = chain(hop, end, stand);
  return parts.flatMap((part, index) => {
    const next = parts[index + 1];
    if (part.interface === undefined || next?.interface === undefined) return [];
    const { fits, remark } = interfacesFit(part.interface, next.interface);
    return fits ? [] : [{ part, next, remark }];
  });
}

/** From the unit to the antenna. Parts that state nothing stay between: what is behind them is not bolted to what is before. */
function chain(hop: Hop, end: HopEnd, stand: Stand): readonly MountedPart[] {
  const { radio } = hop;
  const { coupler, antenna } = stand;
  const feeder = leadTo(hop, end, stand) === "feeder" ? stand.feeder : undefined;
  return [
    radio && { name: radio.name, fact: "radio", interface: radio.unit?.interface },
    coupler && { name: coupler.name, fact: stand.couplerFact, interface: coupler.interface },
    feeder && { name: feeder.name, fact: stand.feederFact, interface: feeder.interface },
    antenna && { name: antenna.name, fact: stand.fact, interface: antenna.mount?.interface },
  ].filter((part) => part !== undefined);
}
