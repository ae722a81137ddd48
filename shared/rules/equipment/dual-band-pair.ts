import { address } from "../../design/address.js";
import type { Hop } from "../../design/design.js";
import { arrangementByName } from "../../radio/arrangements.js";
import { exampleHop } from "../example-preamble.js";
import type { HopInNetworkRule } from "../rule.js";

const LOW = exampleHop({
  hop: "polarization vertical\n  radio R18\n  mode 55 MHz 128QAM\n  arrangement dual-band low\n  pair KELD-TARN-80",
});
const high = (pair: string) => `hop KELD-TARN-80 {
  polarization vertical
  arrangement dual-band high
  ${pair}
  KELD {
    transmits 83 GHz
  }
  TARN {
    transmits 73 GHz
  }
}`;

export const dualBandPair: HopInNetworkRule = {
  scope: "network",
  each: "hop in network",
  id: "dual-band-pair",
  severity: "error",
  arrangements: ({ bandOfPair }) => bandOfPair !== undefined,
  title: "The two hops of a dual-band pair must name each other",
  checks:
    "Whether each hop of a dual-band arrangement names a hop of the other role between the same sites that names it back.",
  why: "The pair is aggregated and often shares an antenna: budget, parts and the committed rate are true for both together only.",
  fix: "Write `pair` with the other hop's name in both.",
  source: "common practice",
  good: `${LOW}\n\n${high("pair KELD-TARN")}`,
  bad: `${LOW}\n\n${high("").replace(/^ +\n/m, "")}`,
  check({ hop, pair, report }) {
    const message = fault(hop, pair?.other);
    if (message === undefined) return;
    const fact = hop.pairedWith === undefined ? "arrangement" : "pair";
    report({ at: address("hop", hop.name, fact), about: address("hop", hop.name), message });
  },
};

/** @param other of the name that stands there; undefined: told by the text, as is one that is not resolved yet */
function fault(hop: Hop, other: Hop | undefined): string | undefined {
  const band = arrangementByName(hop.arrangement.name)?.bandOfPair;
  if (band === undefined) {
    return hop.pairedWith === undefined
      ? undefined
      : `${hop.arrangement.name} is no dual-band arrangement, so ${hop.pairedWith} is no pair of it`;
  }
  if (hop.pairedWith === undefined) return `the other band's hop is not named`;
  if (other === undefined) return undefined;
  const wanted = band === "low" ? "high" : "low";
  if (arrangementByName(other.arrangement.name)?.bandOfPair !== wanted) {
    return `${other.name} is ${other.arrangement.name}; the pair of this hop must be dual-band ${wanted}`;
  }
  if (sites(hop) !== sites(other)) return `${other.name} runs between other sites`;
  return other.pairedWith === hop.name ? undefined : `${other.name} does not name ${hop.name} as its pair`;
}

function sites({ ends }: Hop): string {
  return ends
    .map(({ site }) => site.name)
    .sort()
    .join(" ");
}
