/** For each rule of the text that has fixes: small texts behind the preamble, or in its place, that are found by it. */
import type { TextRule } from "../../language/facts/fact.js";
import { EXAMPLE_PREAMBLE, exampleHop } from "../../shared/rules/example-preamble.js";

const behind = (text: string) => `${EXAMPLE_PREAMBLE}\n${text}\n`;
const hop = (from: string, to: string) => behind(exampleHop().replace(from, to));
const inPreamble = (from: string, to: string) => `${EXAMPLE_PREAMBLE.replace(from, to)}\n${exampleHop()}\n`;

export const TEXT_CASES: Readonly<Partial<Record<TextRule, readonly string[]>>> = {
  "missing-value": [
    hop("transmits high", "transmits"),
    hop("antenna DISH60-18 at 40 m", "antenna DISH60-18 at"),
  ],
  syntax: [
    hop(
      "  radio R18\n",
      "<<<<<<< ours\n  radio R18\n||||||| base\n  radio R18B\n=======\n  radio R18\n  degradation 1 dB\n>>>>>>> theirs\n",
    ),
    hop("    transmits high\n  }\n", "    transmits high\n"),
    hop("    transmits high\n  }", "    transmits high"),
    hop("    transmits low\n  }\n}", "    transmits low\n  }"),
    inPreamble("  structure mast 60 m\n}\n\nsite TARN", "  structure mast 60 m\n\nsite TARN"),
    behind(`${exampleHop()}\n}`),
    inPreamble("site KELD {", 'site KELD "Keld {'),
    hop("  radio R18", "  radio R18 /* to come"),
    hop("  radio R18", "  radio R18\u0001"),
  ],
  "unknown-word": [
    hop("polarization vertical", "polarisation vertical"),
    inPreamble("gain 38.5", "gian 38.5"),
  ],
  "unexpected-value": [
    hop("channel P18 / 55 MHz / 4", "channel P18/55 MHz/4"),
    inPreamble("rate 78", "rte 78"),
  ],
  "unit-missing": [
    hop("at 40 m", "at 40"),
    hop("transmits high", "transmits high\n    power 18"),
    hop("transmits high", "transmits high\n    power 18 dbm"),
    hop("transmits high", "transmits high\n    power 18 dBn"),
    inPreamble("rain 34 mm/h", "rain 34 mm/hr"),
    inPreamble("availability 99.99 %", "availability 99.99"),
    inPreamble("tuning 17.7 GHz", "tuning 17.7"),
    behind("demand D {\n  from KELD to TARN\n  committed 200\n}"),
    behind("demand D {\n  from KELD to TARN\n  latency 5\n}"),
  ],
  "wrong-dimension": [
    hop("transmits high", "transmits high\n    power 18 dB"),
    inPreamble("gain 38.5 dBi", "gain 38.5 dB"),
    inPreamble("margin 20 dB", "margin 20 dBm"),
    inPreamble("rain 34 mm/h", "rain 34 mm"),
  ],
  "value-range": [
    hop("transmits high", "transmits high\n    power 18 dBW"),
    inPreamble("threshold -86 dBm", "threshold 86 dBm"),
    inPreamble("rate 310 Mbit/s", "rate 310 Gbit/s"),
    inPreamble("tuning 17.7 GHz", "tuning 17.7 MHz"),
    inPreamble("diameter 0.6 m", "diameter 60 m"),
    inPreamble("availability 99.99 %", "availability 0.9999 %"),
    inPreamble("logK -4.2", "logK 4.2"),
    inPreamble("logK -4.2", "logK -4,2"),
    hop("at 40 m", "at 40,5 m"),
    inPreamble("at 47.5 -30.5", "at 47,5 -30,5"),
    inPreamble("at 47.5 -30.5", "at 47 30 00 -30 30 00"),
    inPreamble("at 47.5 -30.5", "at 47.5N -30.5W"),
  ],
  "unknown-choice": [
    hop("polarization vertical", "polarization Vertical"),
    hop("arrangement 1+0", "arrangement 1+1"),
  ],
  "doubled-fact": [
    hop("  radio R18", "  radio R18\n  radio R18"),
    hop("at 40 m", "at 40 m\n    antenna DISH60-18 at 41 m"),
  ],
  "doubled-name": [
    behind(`${exampleHop()}\n\n${exampleHop()}`),
    behind(`antenna DISH60-18 {\n  diameter 1.2 m\n}\n\n${exampleHop()}`),
  ],
  "unknown-name": [
    hop("radio R18", "radio R81"),
    hop("radio R18", "radio LATER"),
    hop("antenna DISH60-18", "antenna DISH60"),
    hop("antenna DISH60-18", "antenna LATER"),
    hop("objective trunk", "objective LATER"),
    hop("  TARN {", "  LATER {"),
    hop("transmits high", "coupler LATER\n    transmits high"),
    hop("transmits high", "feeder LATER length 1 m\n    transmits high"),
    hop("transmits high", "cable LATER\n    transmits high"),
    inPreamble("site TARN {\n", "site TARN {\n  chassis LATER { }\n"),
  ],
  "deceiving-name": [behind(`coupler H\u041018 { kind hybrid }\n${exampleHop()}`)],
  "template-used": [
    behind(
      `template antenna DISH { band 17.7 GHz to 19.7 GHz; gain 38.5 dBi }\nantenna D6 like DISH { diameter 0.6 m }\n${exampleHop().replace("antenna DISH60-18", "antenna DISH")}`,
    ),
  ],
  "unknown-mode": [
    hop("mode 55 MHz 128QAM", "mode 55 MHz 12QAM"),
    hop("mode 55 MHz 128QAM", "mode 56 MHz 128QAM"),
  ],
  "unknown-channel": [
    hop("P18 / 55 MHz / 4", "P18 / 55 MHz / 18"),
    hop("P18 / 55 MHz / 4", "P18 / 56 MHz / 4"),
    hop("P18 / 55 MHz / 4", "P19 / 55 MHz / 4"),
  ],
  "hop-ends": [
    hop("  TARN {", "  KELD {"),
    behind(
      exampleHop({ more: "CRAG {\n  }" }).replace("hop KELD", "site CRAG {\n  at 47.6 -30.45\n}\n\nhop KELD"),
    ),
    behind(
      exampleHop({ more: "obstacle 4 m at 3 km from CRAG" }).replace(
        "hop KELD",
        "site CRAG {\n  at 47.6 -30.45\n}\n\nhop KELD",
      ),
    ),
  ],
  unfinished: [hop("polarization vertical", "polarization ?"), hop("transmits high", "transmits ?")],
};
