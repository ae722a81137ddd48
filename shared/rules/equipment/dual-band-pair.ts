import { address } from "../../design/address.js";
import type { Design, Hop } from "../../design/design.js";
import { arrangementByName } from "../../radio/arrangements.js";
import { exampleHop } from "../example-preamble.js";
import type { NetworkRule } from "../rule.js";

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

export const dualBandPair: NetworkRule = {
  scope: "network",
  id: "dual-band-pair",
  severity: "error",
  title: "The two hops of a dual-band pair must name each other",
  checks:
    "Whether each hop of a dual-band arrangement names a hop of the other role between the same sites that names it back.",
  why: "The pair is aggregated and often shares an antenna: budget, parts and the committed rate are true for both together only.",
  fix: "Write `pair` with the other hop's name in both.",
  source: "common practice",
  good: `${LOW}\n\n${high("pair KELD-TARN")}`,
  bad: `${LOW}\n\n${high("").replace(/^ +\n/m, "")}`,
  check({ design, report }) {
    for (const hop of design.hops.values()) {
      const message = fault(hop, design);
      if (message === undefined) continue;
      const fact = hop.pairedWith === undefined ? "arrangement" : "pair";
      const about = address("hop", hop.name);
      report({ at: address("hop", hop.name, fact), about, message }, hop.name);
    }
  },
};

function fault(hop: Hop, design: Design): string | undefined {
  const band = arrangementByName(hop.arrangement.name)?.bandOfPair;
  if (band === undefined) {
    return hop.pairedWith === undefined
      ? undefined
      : `${hop.arrangement.name} is no dual-band arrangement, so ${hop.pairedWith} is no pair of it`;
  }
  if (hop.pairedWith === undefined) return `the other band's hop is not named`;
  const other = design.hops.get(hop.pairedWith);
  // An unknown name is told by the text; a hop that is not resolved yet is told there too.
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
