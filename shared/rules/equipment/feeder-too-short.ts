import { address } from "../../design/address.js";
import type { Fix } from "../../design/fact-change.js";
import { antennasUsed, isAllIndoor } from "../../equipment/mounting.js";
import { standWords } from "../../equipment/stands.js";
import { apart, metres } from "../../format/numbers.js";
import { exampleHop } from "../example-preamble.js";
import { decision, endHere, factHere, type Mending } from "../fixes/mending.js";
import { reachOf } from "../fixes/waveguide.js";
import type { HopRule } from "../rule.js";

const indoor = (length: string) => `feeder ELL-18 {
  kind elliptical
  loss 20 dB/100m at 18.7 GHz
}

radio R18-IN like R18 {
  construction all-indoor
}

${exampleHop({
  hop: "polarization vertical\n  radio R18-IN\n  mode 55 MHz 128QAM\n  arrangement all-indoor 1+0",
  keld: `antenna DISH60-18 at 20 m\n    feeder ELL-18 length ${length}\n    transmits high`,
  tarn: "antenna DISH60-18 at 20 m\n    feeder ELL-18 length 30 m\n    transmits low",
})}`;

export const feederTooShort: HopRule = {
  scope: "hop",
  id: "feeder-too-short",
  severity: "error",
  arrangements: ({ construction }) => construction === "all-indoor",
  title: "The feeder of an all-indoor radio reaches at least up to its antenna",
  checks:
    "Length of the feeder of an all-indoor radio against the height of the antenna above ground, of the diversity antenna too, which the same feeder leads to unless it has its own.",
  why: "The radio stands at the foot of the structure. What the line lacks is missing in the order, and its loss in the level. On a roof, where the room may lie right below, it is a warning.",
  fix: "State the whole run: up the structure, across to the building and through it.",
  source: "common practice",
  needs: [],
  restsOn: ["feeder"],
  fixes: lengthenFeeder,
  good: indoor("30 m"),
  bad: indoor("3 m"),
  check({ hop, report }) {
    if (!isAllIndoor(hop)) return;
    for (const end of hop.ends) {
      const { site } = end;
      const byFeeder = Map.groupBy(antennasUsed(hop, end), ({ feederFact }) => feederFact);
      for (const [fact, stands] of byFeeder) {
        const [highest] = stands.toSorted((a, b) => (b.heightM ?? 0) - (a.heightM ?? 0));
        const { heightM, feeder, feederLengthM } = highest!;
        if (heightM === undefined || feeder === undefined) continue;
        if (feederLengthM === undefined || feederLengthM >= heightM) continue;
        const [length, height] = apart(metres, feederLengthM, heightM);
        report({
          at: address("hop", hop.name, site.name, `${fact}.length`),
          message: `${feeder.name} at ${site.name} is ${length} long, ${highest!.fact === "antenna" ? "its antenna" : `the ${standWords(highest!)}`} hangs at ${height} and the radio stands indoors`,
          // The room may be the one under the roof.
          severity: site.structure?.kind === "roof" ? "warning" : undefined,
          related: [
            {
              at: address("hop", hop.name, site.name, `${highest!.fact}.at`),
              message: `at ${height}`,
            },
          ],
        });
      }
    }
  },
};

/** As long as the antenna is high, at least. */
function lengthenFeeder(mending: Mending): readonly Fix[] {
  const here = endHere(mending);
  const fact = factHere(mending);
  if (!here || fact === undefined) return [];
  const length = reachOf(here.end);
  const title = `Take ${length} of feeder at ${here.site}, as the antenna is high (changes the equipment)`;
  return [decision(title, { do: "replace", at: `${here.at} / ${fact}`, argument: "length", by: length })];
}
