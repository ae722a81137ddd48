import { address } from "../design/address.js";
import { apart, outage } from "../format/numbers.js";
import { exampleHop } from "./example-preamble.js";
import type { HopRule } from "./rule.js";

export const linkQuality: HopRule = {
  scope: "hop",
  id: "link-quality",
  severity: "error",
  title: "Fading must keep the hop's share of severely errored seconds",
  checks:
    "Clear-air outage of the worst month, worse direction, judged mode, against the hop's share of the objective of F.1668, by length.",
  why: "Short fades do not count as unavailable; they count as errors, and in every month.",
  fix: "More margin, more inclination, a shorter hop, diversity.",
  source: "Rec. ITU-R F.1668 and ITU-T G.826, from memory; the share by length is practice",
  needs: ["levels", "objective"],
  quietAfter: ["path-length", "frequency-outside-tuning", "level-below-threshold", "capacity"],
  good: exampleHop(),
  bad: `objective clean {
  quality intermediate over 2500 km block-ratio 0.01
}

${exampleHop({ keld: "antenna A18-06 at 40 m\n    transmits high\n    extra-loss 18 dB" }).replace(
  "objective trunk",
  "objective clean",
)}`,
  check({ hop, result, report }) {
    const found = result.objectives?.find(
      (one) => one.what === "severely errored seconds" && one.verdict === "missed",
    );
    if (found === undefined) return;
    const { name } = hop.objective!;
    const [takes, allowed] = apart(outage, found.foundPercent, found.allowedPercent);
    report({
      at: address("hop", hop.name),
      message: `${found.of} takes ${takes} of the time, the hop's share of severely errored seconds is ${allowed}`,
      related: [{ at: address("objective", name, "quality"), message: `quality of ${name}` }],
    });
  },
};
