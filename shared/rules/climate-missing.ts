import type { Hop } from "../design/design.js";
import { dataKey } from "../evaluate/account/data.js";
import type { Lack, Step } from "../evaluate/account/lack.js";
import type { HopResult } from "../evaluate/account/result.js";
import { withinReason } from "../evaluate/reason.js";
import { lackClause } from "../words/lacks.js";
import { shown } from "../words/message.js";
import { criteriaOf, openLacks } from "./asked.js";
import { exampleHop } from "./example-preamble.js";
import { gathering } from "./rule.js";
import { sharedRemarks } from "./shared-remarks.js";

export const climateMissing = gathering({
  scope: "network",
  ofResults: true,
  id: "climate-missing",
  severity: "info",
  title: "Rain or multipath cannot be computed",
  checks:
    "Whether the climate gives what the fading methods need, and whether the methods apply to the path, on hops of which nothing is asked that takes it: on the others not-judged tells it. Said once for all hops that lack the same.",
  why: "Without rain rate and multipath figures there is a fade margin but no availability.",
  fix: "State a rain rate at 0.01 %, and logK with dN75 (or dN1), in the climate of the network or of the hop, or name a folder of maps.",
  source: "Rec. ITU-R P.530-18 sections 2.3 and 2.4",
  good: exampleHop(),
  bad: exampleHop({ more: "climate { rain 60 mm/h at 0.1 % }" }).replace("  objective trunk\n", ""),
  ...sharedRemarks("climate-missing", (hop, result) => {
    const causes = result.directions.length === 0 ? [] : causesOf(hop, result);
    if (causes.length === 0) return [];
    const message = causes.map(({ step, lack }) => `${step} outage: ${shown(lackClause(lack))}`).join("; ");
    const about = causes.map(({ step, lack }) => `${step} ${dataKey(lack.reason)}`).join("; ");
    return [{ about, message, at: "network / climate" }];
  }),
});

const FADING: readonly Step[] = ["rain", "multipath", "cross-polar"];

function causesOf(hop: Hop, result: HopResult): { readonly step: Step; readonly lack: Lack }[] {
  if (result.missing.length === 0) return [];
  const open = openLacks(criteriaOf(hop, withinReason(hop).hop, result));
  return result.missing.flatMap((lack) => {
    const step = FADING.find((one) => lack.of.includes(one));
    // A fact is told with its hop, and so is the lack of a profile.
    const elsewhere = lack.fact !== undefined || lack.code === "beyond reason" || lack.code === "terrain";
    if (step === undefined || elsewhere || open.has(lack)) return [];
    return [{ step, lack }];
  });
}
