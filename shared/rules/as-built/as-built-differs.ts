import { builtFactWords, builtFigure, compassWords, costWords } from "../../as-built/built-words.js";
import { BUILT_TOLERANCES, type BuiltFact, builtDifferences } from "../../as-built/differences.js";
import { address } from "../../design/address.js";
import type { FactChange } from "../../design/fact-change.js";
import { trimmed } from "../../format/numbers.js";
import { exampleHop } from "../example-preamble.js";
import { decision, endHere, type Fixes } from "../fixes/mending.js";
import type { HopRule } from "../rule.js";

/** Into the plan, where it is one line there; an azimuth is none, the plan has it from the positions. */
const builtIntoPlan: Fixes = (mending) => {
  const here = endHere(mending);
  const fact = mending.finding.at.split(" / ").at(-1) as BuiltFact | undefined;
  const built = here?.end.asBuilt;
  if (here === undefined || built === undefined) return [];
  const metresOf = (value: number) => `${trimmed(value, 4)} m`;
  const write = (what: string, ...of: readonly FactChange[]) => [
    decision(`Write ${what} into the plan, as it was built`, { do: "first", of }),
  ];
  const replace = (word: string, argument: string, by: string): FactChange => ({
    do: "replace",
    at: `${here.at} / ${word}`,
    argument,
    by,
  });
  switch (fact) {
    case "antenna":
      return built.antenna
        ? write(built.antenna.name, replace("antenna", "antenna", built.antenna.name))
        : [];
    case "height": {
      if (built.heightM === undefined) return [];
      const by = metresOf(built.heightM);
      return write(by, replace("antenna", "at", by), replace("height", "value", by));
    }
    case "diversity-height":
      return built.diversityHeightM === undefined
        ? []
        : write(
            metresOf(built.diversityHeightM),
            replace("diversity-antenna", "at", metresOf(built.diversityHeightM)),
          );
    case "cable-length":
      return built.cableLengthM === undefined
        ? []
        : write(metresOf(built.cableLengthM), replace("cable", "length", metresOf(built.cableLengthM)));
    default:
      return [];
  }
};

export const asBuiltDiffers: HopRule = {
  scope: "hop",
  id: "as-built-differs",
  severity: "warning",
  title: "What was built is what was planned",
  checks: `What stands in \`as-built\` against the plan: the antenna, heights to ${BUILT_TOLERANCES.heightM} m, the azimuth to half of the antenna's beamwidth (${BUILT_TOLERANCES.azimuthDeg} deg where that is not known), the length of the cable to ${BUILT_TOLERANCES.cableLengthM} m. An azimuth that is off by just the magnetic declination of its site on that day, to half a degree, is told as that.`,
  why: "Figures, licences and lists follow the plan. What hangs otherwise has another clearance, another level and another load than all of them say.",
  fix: "Have it moved, or write what was built into the plan, so that the whole design is judged with it.",
  source:
    "World Magnetic Model 2025 (NOAA NCEI, BGS) for the declination; else common practice; the tolerances are ours, no source",
  needs: ["distance"],
  fixes: builtIntoPlan,
  good: exampleHop({
    tarn: "antenna DISH60-18 at 40 m\n    transmits low\n    as-built on 2026-05-02 {\n      height 40.2 m\n    }",
  }),
  bad: exampleHop({
    tarn: "antenna DISH60-18 at 40 m\n    transmits low\n    as-built on 2026-05-02 {\n      height 36.5 m\n    }",
  }),
  check({ hop, result, report }) {
    for (const one of builtDifferences(hop, result)) {
      const { site, fact, planned, built } = one;
      report({
        at: address("hop", hop.name, site, "as-built", fact),
        message: `the ${builtFactWords(fact)} at ${site} is ${builtFigure(fact, built)} as built, and ${builtFigure(fact, planned)} in the plan${costWords(one)}${compassWords(one)}`,
        help: "have it moved, or write what was built into the plan",
      });
    }
  },
};
