import { address } from "../../design/address.js";
import { antennasUsed, isAllIndoor } from "../../equipment/mounting.js";
import type { SiteEnd, SitePlan } from "../../equipment/site-plan.js";
import { standWords } from "../../equipment/stands.js";
import { apart, metres } from "../../format/numbers.js";
import { exampleHop } from "../example-preamble.js";
import type { SiteRule } from "../rule.js";

const example = (length: string) => `cable COAX-7 {
  kind coaxial
}

${exampleHop({ keld: `antenna DISH60-18 at 40 m\n    transmits high\n    cable COAX-7 length ${length}` })}`;

export const cableTooShort: SiteRule = {
  scope: "network",
  each: "site",
  id: "cable-too-short",
  severity: "warning",
  arrangements: ({ outdoorUnits }) => outdoorUnits > 0,
  title: "A stated cable reaches at least up to its unit",
  checks:
    "Stated length of the cable to the units of an end against the height of its highest antenna above ground and the run that the site states.",
  why: "A cable cut too short is found out on the structure, and its loss and its voltage are told too good. On a roof, where the room may lie right below, it is a remark.",
  fix: "State the whole way: through the building, across to the structure and up to the unit; or leave the length out, then it is estimated.",
  source: "common practice",
  good: example("50 m"),
  bad: example("15 m"),
  check({ plan, report }) {
    for (const end of plan.ends) {
      const message = tooShort(end, plan);
      if (message === undefined) continue;
      report(
        {
          at: address("hop", end.hop.name, plan.site.name, "cable"),
          message,
          severity: plan.site.structure?.kind === "roof" ? "info" : undefined,
        },
        end.hop.name,
      );
    }
  },
};

function tooShort({ hop, end, facts }: SiteEnd, { site, equipment }: SitePlan): string | undefined {
  const { cable, cableLengthM: lengthM } = end.installation ?? {};
  if (lengthM === undefined || isAllIndoor(hop) || facts?.outdoorUnits === 0) return undefined;
  const stands = antennasUsed(hop, end).flatMap((stand) =>
    stand.heightM === undefined ? [] : [{ words: standWords(stand), heightM: stand.heightM }],
  );
  stands.sort((a, b) => b.heightM - a.heightM);
  const [highest] = stands;
  const runM = equipment?.cableRunM ?? 0;
  if (highest === undefined || lengthM >= highest.heightM + runM) return undefined;
  const [length, needed] = apart(metres, lengthM, highest.heightM + runM);
  const run = runM > 0 ? ` and ${metres(runM)} lead on to the rack: ${needed} at least` : "";
  const reached = stands.find(({ heightM }) => heightM + runM <= lengthM);
  const lower = reached && `it reaches the ${reached.words} at ${metres(reached.heightM)}, but `;
  const height = runM > 0 ? metres(highest.heightM) : needed;
  return `${cable?.name ?? "the cable"} at ${site.name} is ${length} long: ${lower ?? ""}the ${highest.words} hangs at ${height}${run}`;
}
