import { address } from "../design/address.js";
import type { ModeResult } from "../evaluate/account/level-result.js";
import type { CauseOutage } from "../evaluate/account/outage-result.js";
import { isOfPrecipitation } from "../evaluate/outage/takes-most.js";
import { apart, outage } from "../format/numbers.js";
import { shown } from "../words/message.js";
import { countedMessage } from "../words/objectives.js";
import { changesOf, mending, sentences, triedWords } from "./advice.js";
import { exampleHop } from "./example-preamble.js";
import { proposedChanges } from "./fixes/proposed.js";
import { meansAgainst, worseMode, yieldsTo } from "./outage-advice.js";
import type { HopContext, HopRule, Report } from "./rule.js";

export const linkQuality: HopRule = {
  scope: "hop",
  id: "link-quality",
  severity: "error",
  title: "Fading must keep the hop's share of severely errored seconds",
  checks:
    "Clear-air outage of the worst month, worse direction, judged mode, against the hop's share of the objective of F.1668, by length.",
  why: "Short fades do not count as unavailable; they count as errors, and in every month.",
  fix: "Look which cause takes most: flat fading yields to margin, a more inclined path or diversity, selective fading to a better equalizer, a lower or narrower mode or diversity, not to margin.",
  source: "Rec. ITU-R F.1668 and ITU-T G.826, from memory; the share by length is practice",
  needs: ["levels", "objective"],
  quietAfter: ["path-length", "frequency-outside-tuning", "level-below-threshold", "capacity"],
  fixes: proposedChanges,
  good: exampleHop(),
  bad: `objective clean {
  quality intermediate over 2500 km block-ratio 0.01
}

${exampleHop({ keld: "antenna DISH60-18 at 40 m\n    transmits high\n    extra-loss 18 dB" }).replace(
  "objective trunk",
  "objective clean",
)}`,
  check(context) {
    const { hop, result, report } = context;
    const found = result.objectives?.find((one) => one.method === "link-quality" && one.verdict === "missed");
    if (found === undefined) return;
    const { name } = hop.objective!;
    const [takes, allowed] = apart(outage, found.foundPercent, found.allowedPercent);
    const mode = worseMode(hop, result, lostInMonth);
    report({
      at: address("hop", hop.name),
      message: `${shown(countedMessage(found))} takes ${takes} of the time${mode === undefined ? "" : ` with ${mode.modulation}`}, the hop's share of severely errored seconds is ${allowed}`,
      ...remedy(context, mode),
      related: [{ at: address("objective", name, "quality"), message: `quality of ${name}` }],
    });
  },
};

function lostInMonth({ multipathWorstMonthPercent }: ModeResult): number | undefined {
  return multipathWorstMonthPercent;
}

function remedy(context: HopContext, mode: ModeResult | undefined): Pick<Report, "help" | "changes"> {
  const share = ({ worstMonthPercent = 0 }: CauseOutage) => worstMonthPercent;
  const causes = (mode?.causes ?? [])
    .filter((one) => !isOfPrecipitation(one))
    .toSorted((a, b) => share(b) - share(a));
  if (causes.length === 0) return {};
  const [most] = causes;
  const mended = mending(context, linkQuality.id, meansAgainst(causes, share, most?.cause));
  const tried = triedWords(mended, ({ objectives = [] }) => {
    const then = objectives.find(({ method }) => method === "link-quality");
    return then && outage(then.foundPercent);
  });
  const part = causes.length > 1 ? `${outage(share(most!))} of it is ${most!.cause}.` : undefined;
  return {
    help: sentences(part, tried ?? yieldsTo(most!.cause, context.hop)),
    changes: changesOf(mended),
  };
}
