/** Designs for rules whose own example holds no catalogue entry, or no line, that could mend it. */

import { exampleDemand } from "../../shared/rules/demands/example-demand.js";
import { equipped } from "../../shared/rules/equipment/example-equipment.js";
import { EXAMPLE_PREAMBLE, exampleHop } from "../../shared/rules/example-preamble.js";
import { RULES } from "../../shared/rules/index.js";

const LARGER = `antenna DISH120-18 like DISH60-18 { diameter 1.2 m; gain 44.5 dBi; polarizations dual }
antenna DISH90-18 like DISH60-18 { diameter 0.9 m; gain 42 dBi; polarizations dual }
radio R18H like R18 {
  mode 55 MHz QPSK rate 78 Mbit/s power 30 dBm threshold -86 dBm
  mode 55 MHz 128QAM rate 310 Mbit/s power 28 dBm threshold -69 dBm
}
feeder FLEX-18 { kind flexible; guide R220; loss 1 dB/m at 18.7 GHz }
card CLOVER { kind tdm; ports 10 E1-75; draws 8 W }`;

const withLarger = (id: string) => `${EXAMPLE_PREAMBLE}\n${LARGER}\n${RULES.get(id)!.bad}`;
const lossy = (lossDb: number) =>
  `${EXAMPLE_PREAMBLE}\n${LARGER}\n${exampleHop({ keld: `antenna DISH60-18 at 40 m\n    transmits high\n    extra-loss ${lossDb} dB` })}`;

/** Ends that are built differently: KELD states its own arrangement. */
const oneEnd = (arrangement: string, keld: string, tarn = "") =>
  `${EXAMPLE_PREAMBLE}\n${exampleHop({
    keld: `antenna DISH60-18 at 40 m\n    arrangement ${arrangement}${keld}\n    transmits high`,
    tarn: `antenna DISH60-18 at 40 m${tarn}\n    transmits low`,
  })}`;

/** Hops KELD-MOSS to the last by their halves, the first site's first. */
const halvesOf = (...hops: readonly (readonly [from: string, to: string, first: "high" | "low"])[]) =>
  `${EXAMPLE_PREAMBLE}\nsite MOSS { at 47.45 -30.45 }\nsite FELL { at 47.46 -30.47 }\n${hops
    .map(([from, to, first]) =>
      exampleHop({
        keld: `antenna DISH60-18 at 40 m\n    transmits ${first}`,
        tarn: `antenna DISH60-18 at 40 m\n    transmits ${first === "high" ? "low" : "high"}`,
      })
        .replaceAll("KELD", "FROM")
        .replaceAll("TARN", to)
        .replaceAll("FROM", from),
    )
    .join("\n")}`;

export const RULE_CASES: Readonly<Record<string, readonly string[]>> = {
  // Two hops in one exchange; a chain of them; a ring that none settles.
  "site-high-and-low": [
    halvesOf(
      ["KELD", "TARN", "high"],
      ["KELD", "MOSS", "high"],
      ["KELD", "FELL", "low"],
      ["MOSS", "TARN", "low"],
    ),
    halvesOf(["KELD", "TARN", "high"], ["TARN", "MOSS", "high"], ["MOSS", "FELL", "low"]),
    halvesOf(["KELD", "TARN", "high"], ["TARN", "MOSS", "low"], ["MOSS", "KELD", "high"]),
  ],
  "end-arrangement": [
    oneEnd(
      "2+0 xpic",
      "\n    coupler O18 direct",
      "\n    arrangement 1+1 hot-standby\n    coupler H18-E direct",
    ),
    oneEnd("dual-band low", ""),
    oneEnd("all-outdoor 1+1 hot-standby", ""),
  ],
  "licence-differs": [
    "polarization horizontal",
    "height 30 m",
    "frequency 17.965 GHz",
    "antenna DISH90-18",
    "at 47.501 -30.5",
    "polarization horizontal; height 30 m; antenna DISH90-18",
  ].map((granted) =>
    [EXAMPLE_PREAMBLE, LARGER, exampleHop(), `licence "F-1" of KELD-TARN from KELD { ${granted} }`].join(
      "\n",
    ),
  ),
  "coupler-missing": [oneEnd("1+1 hot-standby", "")],
  "coupler-wrong-kind": [oneEnd("1+1 hot-standby", "\n    coupler O18 direct")],
  "coupler-not-needed": [
    oneEnd("1+1 hot-standby", "\n    coupler H18-E direct", "\n    coupler H18-E direct"),
  ],
  "antenna-ports-short": [oneEnd("1+1 hot-standby two-antennas", ""), oneEnd("1+1 space-diversity", "")],
  "antenna-not-needed": [
    oneEnd("1+1 hot-standby", "\n    coupler H18-E direct", "\n    second-antenna DISH60-18 at 36 m"),
  ],
  "diversity-incomplete": [
    oneEnd(
      "1+1 space-diversity",
      "\n    diversity-antenna DISH60-18 at 28 m",
      "\n    diversity-antenna DISH60-18 at 28 m",
    ),
  ],
  "standby-level": [
    oneEnd("1+1 hot-standby", "\n    coupler H18-U direct\n    extra-loss 24 dB"),
    // A little too low, so that a larger antenna at one end is enough.
    withLarger("standby-level"),
  ],
  // What is too large for a unit on its back comes with the piece that leads to it.
  "antenna-out-of-band": [
    `antenna DISH240-18 like DISH60-18 { diameter 2.4 m; gain 50 dBi }\n${withLarger("antenna-out-of-band")}`,
  ],
  "arms-exchanged": [oneEnd("1+1 hot-standby", "\n    coupler H18-U direct\n    arms exchanged")],
  "demand-availability": [
    `${EXAMPLE_PREAMBLE}\n${LARGER}\n${exampleDemand(["committed 100 Mbit/s", "availability 99.999 %"])}`,
  ],
  // The mode in use carries 78 Mbit/s, the radio has one of 310.
  "demand-capacity": [
    `${EXAMPLE_PREAMBLE}\n${exampleDemand(["committed 200 Mbit/s"]).replace("55 MHz 128QAM", "55 MHz QPSK")}`,
  ],
  availability: [withLarger("availability"), lossy(12)],
  "link-availability": [0.5, 1, 2, 5, 10, 20].map((percent) =>
    withLarger("link-availability").replace("propagation 0.1 %", `propagation ${percent} %`),
  ),
  "link-quality": [4, 8, 12].map((lossDb) =>
    withLarger("link-quality")
      .replace("extra-loss 18 dB", `extra-loss ${lossDb} dB`)
      .replace("2500 km block-ratio 0.01", "30 km block-ratio 1"),
  ),
  // Where the criteria ask for little less: by less power, by power control, and with better antennas in the catalogue.
  "interference-degradation": [
    `${EXAMPLE_PREAMBLE}\ninterference { aggregate 27 dB }\n${RULES.get("interference-degradation")!.bad}`,
    `${EXAMPLE_PREAMBLE.replace("duplex 1010 MHz", "duplex 1010 MHz\n  power-control 20 dB")}\ninterference { single-entry 20 dB }\n${LARGER}\n${RULES.get("interference-degradation")!.bad}`,
    withLarger("interference-degradation"),
    // A third hop sends from the hub too: what it brings stays when the power of the strongest is lowered.
    `${EXAMPLE_PREAMBLE}\ninterference { aggregate 28 dB }\nsite FELL { at 47.50 -30.55; structure mast 60 m }\n${RULES.get("interference-degradation")!.bad}\n${exampleHop().replaceAll("KELD", "FELL")}`,
  ],
  "others-harmed": [
    `${EXAMPLE_PREAMBLE}\ninterference { toward-others 44 dB }\n${RULES.get("others-harmed")!.bad}`,
  ],
  "fade-margin": [withLarger("fade-margin")],
  "level-below-threshold": [30, 34, 38, 42, 46].map(lossy),
  "antenna-single-polarized": [withLarger("antenna-single-polarized")],
  "direct-mounting": [withLarger("direct-mounting")],
  "traffic-ports-short": [
    `${EXAMPLE_PREAMBLE}\n${LARGER}\n${equipped('service "x" 4 E1-75\nchassis SPINNEY {\n  slot 11 HEATH\n  slot 5 MIST\n  card FERN\n}')}`,
  ],
  "aggregation-missing": [
    `${EXAMPLE_PREAMBLE}\ncard BRAMBLE { kind aggregation; ports 1 10GE }\n${RULES.get("aggregation-missing")!.bad}`,
  ],
  "if-card-unit": [
    `${EXAMPLE_PREAMBLE}\ncard GALE { kind if; ports 2 IF }\n${RULES.get("if-card-unit")!.bad}`,
    `${EXAMPLE_PREAMBLE}\ncard GALE { kind if; ports 2 IF }\n${RULES.get("if-card-unit")!.bad.replace("slot 1 WAVE", "card WAVE")}`,
  ],
  "chassis-needs": [
    `${EXAMPLE_PREAMBLE}\ncard GUST { kind fan }\n${RULES.get("chassis-needs")!.bad}`,
    `${EXAMPLE_PREAMBLE}\ncard GUST { kind fan }\ncard BOLT { kind power }\n${equipped("chassis SPINNEY {\n  slot 11 HEATH\n  slot 5 MIST\n}")}`,
  ],
  "emulation-clock": [
    `${EXAMPLE_PREAMBLE}\ncard HEATH { kind controller; ports 1 sync }\n${equipped("chassis SPINNEY {\n  slot 7 IVY\n  slot 5 MIST\n}")}`,
  ],
  "duplex-mismatch": [
    `${EXAMPLE_PREAMBLE}\nradio R18W like R18 { duplex 1480 MHz }\n${RULES.get("duplex-mismatch")!.bad}`,
  ],
  "hop-incomplete": [
    `${EXAMPLE_PREAMBLE}\nhop KELD-TARN {\n  KELD {\n  }\n  TARN { antenna DISH60-18 }\n}\n`,
  ],
};
