import { address } from "../design/address.js";
import type { CauseOutage } from "../evaluate/account/outage-result.js";
import { isOfPrecipitation } from "../evaluate/outage/takes-most.js";
import { apart, yearly } from "../format/numbers.js";
import { shown } from "../words/message.js";
import { countedMessage } from "../words/objectives.js";
import { changesOf, mending, sentences, triedWords } from "./advice.js";
import { exampleHop } from "./example-preamble.js";
import { proposedChanges } from "./fixes/proposed.js";
import { meansAgainst, worseMode, yieldsTo } from "./outage-advice.js";
import type { HopContext, HopRule, Report } from "./rule.js";

export const linkAvailability: HopRule = {
  scope: "hop",
  id: "link-availability",
  severity: "error",
  title: "The hop must keep its share of the link's availability",
  checks:
    "Precipitation and equipment of the worse direction in the judged mode against the hop's share of what F.1703 allows the link, by length; precipitation alone when the objective gives it a share. Without such a share the failures of equipment must be known: not-judged tells where they are not.",
  why: "A link is as available as the sum of its hops' outages leaves it.",
  fix: "Rain yields to margin, vertical polarization, a lower band or a shorter hop; failures to protection or a shorter repair time.",
  source: "Rec. ITU-R F.1703, from memory; the share by length is practice",
  needs: ["levels", "objective"],
  quietAfter: ["path-length", "frequency-outside-tuning", "level-below-threshold", "capacity"],
  fixes: proposedChanges,
  good: exampleHop(),
  bad: `objective far {
  availability-class long-haul over 200 km propagation 0.1 %
}

${exampleHop().replace("objective trunk", "objective far")}`,
  check(context) {
    const { hop, result, report } = context;
    const found = result.objectives?.find((one) => one.method === "link-availability");
    if (found?.verdict !== "missed") return;
    const { name } = hop.objective!;
    const failuresPercent = found.failuresPercent ?? 0;
    // What is missed by failures alone is told without rain: "at most" so much would not show that it is missed.
    const alone = found.bound === "at most";
    const [takes, allowed] = apart(
      yearly,
      alone ? failuresPercent : found.foundPercent,
      found.allowedPercent,
    );
    const bound = found.bound === "at least" ? "at least " : "";
    const estimate =
      found.atMostPercent === undefined
        ? ""
        : `; rain is an estimate outside the range of its law, by which it would be at most ${yearly(found.atMostPercent)}`;
    const mode = worseMode(hop, result, ({ rain }) => rain?.timePercent);
    report({
      at: address("hop", hop.name),
      message: `${alone ? "equipment alone" : shown(countedMessage(found))} takes ${bound}${takes}${mode === undefined ? "" : ` with ${mode.modulation}`}, the hop's share of the unavailability allowed to the link is ${allowed}${estimate}`,
      ...remedy(
        context,
        failuresPercent > found.allowedPercent,
        found.foundPercent - failuresPercent,
        failuresPercent,
      ),
      related: [
        { at: address("objective", name, "availability-class"), message: `availability-class of ${name}` },
      ],
    });
  },
};

function remedy(
  context: HopContext,
  byFailures: boolean,
  rainPercent: number,
  failuresPercent: number,
): Pick<Report, "help" | "changes"> {
  const failures =
    failuresPercent > 0
      ? `Of it failures take ${yearly(failuresPercent)}, which yield to protection or a shorter repair time, not to margin.`
      : undefined;
  if (byFailures) return { help: failures };
  const cause = rainCause(context);
  const mended = mending(
    context,
    linkAvailability.id,
    meansAgainst([cause], () => 1, cause.cause),
  );
  const tried = triedWords(mended, ({ objectives = [] }) => {
    const then = objectives.find(({ method }) => method === "link-availability");
    return then && yearly(then.foundPercent);
  });
  const most = rainPercent >= failuresPercent ? yieldsTo(cause.cause, context.hop) : undefined;
  return { help: sentences(failures, tried ?? most), changes: changesOf(mended) };
}

/** Of precipitation in the worse direction. */
function rainCause({ hop, result }: HopContext): CauseOutage {
  const causes = worseMode(hop, result, ({ rain }) => rain?.timePercent)?.causes ?? [];
  return causes.find(isOfPrecipitation) ?? { cause: "rain", yearPercent: 0 };
}
