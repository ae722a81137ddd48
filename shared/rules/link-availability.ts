import { address } from "../design/address.js";
import { apart, yearly } from "../format/numbers.js";
import { exampleHop } from "./example-preamble.js";
import type { HopRule } from "./rule.js";

export const linkAvailability: HopRule = {
  scope: "hop",
  id: "link-availability",
  severity: "error",
  title: "The hop must keep its share of the link's availability",
  checks:
    "Precipitation and equipment of the worse direction in the judged mode against the hop's share of what F.1703 allows the link, by length; precipitation alone when the objective gives it a share. Without such a share the failures of equipment must be known: not-judged tells where they are not.",
  why: "A link is as available as the sum of its hops' outages leaves it.",
  fix: "Against rain: a shorter hop, a lower band, larger antennas. Against failures: protection, a shorter repair time.",
  source: "Rec. ITU-R F.1703, from memory; the share by length is practice",
  needs: ["levels", "objective"],
  quietAfter: ["path-length", "frequency-outside-tuning", "level-below-threshold", "capacity"],
  good: exampleHop(),
  bad: `objective far {
  availability-class long-haul over 200 km propagation 0.1 %
}

${exampleHop().replace("objective trunk", "objective far")}`,
  check({ hop, result, report }) {
    const found = result.objectives?.find((one) => one.what === "unavailability of the link");
    if (found?.verdict !== "missed") return;
    const { name } = hop.objective!;
    const [takes, allowed] = apart(yearly, found.foundPercent, found.allowedPercent);
    const bound = found.bound === undefined ? "" : `${found.bound} `;
    const estimate =
      found.atMostPercent === undefined
        ? ""
        : `; rain is an estimate outside the range of its law, by which it would be at most ${yearly(found.atMostPercent)}`;
    report({
      at: address("hop", hop.name),
      message: `${found.of} takes ${bound}${takes}, the hop's share of the unavailability allowed to the link is ${allowed}${estimate}`,
      related: [
        { at: address("objective", name, "availability-class"), message: `availability-class of ${name}` },
      ],
    });
  },
};
