import { address } from "../design/address.js";
import { exampleHop } from "./example-preamble.js";
import type { HopRule } from "./rule.js";

export const climateMissing: HopRule = {
  scope: "hop",
  id: "climate-missing",
  severity: "info",
  title: "Rain or multipath cannot be computed",
  checks:
    "Whether the climate gives what the fading methods need, and whether the methods apply to the path.",
  why: "Without rain rate and multipath figures there is a fade margin but no availability.",
  fix: "State a rain rate at 0.01 %, and logK with dN75 (or dN1), in the climate of the network or of the hop.",
  source: "Rec. ITU-R P.530-18 sections 2.3 and 2.4",
  needs: ["levels"],
  good: exampleHop(),
  bad: exampleHop({ more: "climate { rain 60 mm/h at 0.1 % }" }),
  check({ hop, result, report, has }) {
    const causes = result.missing
      .filter((sentence) => /^(Rain|Multipath)( outage)?:/.test(sentence))
      // The lack of a profile was told already.
      .filter((sentence) => !(result.profile === undefined && sentence.includes("without a profile")))
      // So was the lack of clearance, which makes the multipath method refuse.
      .filter((sentence) => !(has("clearance") && /diffraction/.test(sentence)));
    if (causes.length === 0) return;
    report({
      at: address("hop", hop.name),
      message: causes
        .map((sentence) => sentence.replace(/\.$/, "").replace(/^[A-Z]/, (first) => first.toLowerCase()))
        .join("; "),
      severity: hop.objective?.availabilityPercent === undefined ? "info" : "warning",
      related: [{ at: "network / climate", message: "climate of the network" }],
    });
  },
};
