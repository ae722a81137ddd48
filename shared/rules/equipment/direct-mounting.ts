import { address } from "../../design/address.js";
import type { Antenna } from "../../design/catalogue.js";
import type { Fix } from "../../design/fact-change.js";
import { antennasUsed, leadTo, mountingFact, mountingOf, takesDirect } from "../../equipment/mounting.js";
import { metres } from "../../format/numbers.js";
import { exampleHop } from "../example-preamble.js";
import { decision, endHere, type Mending } from "../fixes/mending.js";
import { feederLine, feedersFor, mountingChange, USUAL_PIECE } from "../fixes/waveguide.js";
import type { HopRule } from "../rule.js";

export const directMounting: HopRule = {
  scope: "hop",
  id: "direct-mounting",
  severity: "error",
  arrangements: ({ construction }) => construction !== "all-indoor",
  title: "An antenna that is mounted directly must be made for it",
  checks:
    "Direct mounting without a feeder against what each antenna of the end states, or against a diameter of 1.8 m where it states nothing.",
  why: "A large antenna has no plate for a unit on its back: the unit arrives and fits nowhere, and the flexible waveguide was not ordered.",
  fix: "Mount separately with a waveguide, or choose a smaller antenna.",
  source: "common practice",
  needs: [],
  fixes: mountSeparately,
  good: exampleHop({ keld: "antenna DISH60-18 at 40 m\n    mounting direct\n    transmits high" }),
  bad: `antenna DISH240-18 like DISH60-18 {
  diameter 2.4 m
  gain 50 dBi
}

${exampleHop({ keld: "antenna DISH240-18 at 40 m\n    mounting direct\n    transmits high" })}`,
  check({ hop, report }) {
    for (const end of hop.ends) {
      // With a feeder to it the mounting contradicts itself: told by a rule of its own.
      const found = antennasUsed(hop, end).find(
        (stand) =>
          mountingOf(end, stand) === "direct" &&
          leadTo(hop, end, stand) === "none" &&
          !takesDirect(stand.antenna!),
      );
      const heavy = found?.antenna;
      if (found === undefined || heavy === undefined) continue;
      report({
        at: address("hop", hop.name, end.site.name, mountingFact(found)),
        about: address("hop", hop.name, end.site.name),
        message: `direct mounting at ${end.site.name}: ${heavy.name} ${reason(heavy)}`,
        related: [{ at: address("antenna", heavy.name), message: heavy.name }],
      });
    }
  },
};

function reason({ mount, diameterM = 0 }: Antenna): string {
  return mount?.direct === false
    ? "is not made for it"
    : `has ${metres(diameterM)}, and its catalogue entry does not allow it`;
}

/** Separate mounting, with the waveguide that it needs where none is stated. */
function mountSeparately(mending: Mending): readonly Fix[] {
  const here = endHere(mending);
  const mounting = here && mountingChange(here, "separate");
  if (!here || !mounting) return [];
  const title = `Mount separately from the antenna at ${here.site}`;
  if (here.end.feeder) return [decision(title, mounting)];
  return feedersFor(mending, here.hop, false).map(({ name }) =>
    decision(`${title}, with waveguide ${name}, ${USUAL_PIECE}`, mounting, feederLine(here, name)),
  );
}
