import { address } from "../design/address.js";
import type { Fix } from "../design/fact-change.js";
import { antennasStated, standWords } from "../equipment/stands.js";
import { apart, metres } from "../format/numbers.js";
import { exampleHop } from "./example-preamble.js";
import { decision, endHere, type Mending } from "./fixes/mending.js";
import type { HopRule } from "./rule.js";

/** Few structures of microwave hops are higher. */
const HIGH_M = 120;

const mastless = (height: number) =>
  `site MOSS {\n  at 47.5 -30.5\n}\n\n${exampleHop({
    keld: `antenna DISH60-18 at ${height} m\n    transmits high`,
  }).replaceAll("KELD", "MOSS")}`;

export const antennaWithoutStructure: HopRule = {
  scope: "hop",
  id: "antenna-without-structure",
  severity: "warning",
  title: "What a very high antenna hangs on must be stated",
  checks:
    "Centre of each antenna above 120 m, further ones and diversity antennas too, at a site that states no structure. Lower ones hang where the design says.",
  why: "Without a structure no height is held against anything: feet written as metres, or a height above sea level, would pass.",
  fix: "State the structure of the site, or mend the height.",
  source: "common practice; the 120 m are our own limit",
  needs: [],
  fixes: stateStructure,
  good: mastless(40),
  bad: mastless(140),
  check({ hop, report }) {
    for (const end of hop.ends) {
      const { site } = end;
      if (site.structure !== undefined) continue;
      for (const stand of antennasStated(end)) {
        const { heightM } = stand;
        if (heightM === undefined || heightM <= HIGH_M) continue;
        report({
          at: address("hop", hop.name, site.name, `${stand.fact}.at`),
          message: `${standWords(stand)} at ${apart(metres, heightM, HIGH_M)[0]} above ground, and ${site.name} states no structure`,
          related: [{ at: address("site", site.name), message: `${site.name} has no \`structure\`` }],
        });
      }
    }
  },
};

/** A structure at the site that reaches up to its antenna: what stands there is for the engineer to write. */
function stateStructure(mending: Mending): readonly Fix[] {
  const here = endHere(mending);
  if (!here) return [];
  const topM = Math.ceil(Math.max(...antennasStated(here.end).map(({ heightM = 0 }) => heightM)));
  return ["mast", "tower"].map((kind) =>
    decision(`State a ${kind} of ${topM} m at ${here.site} (write what really stands there)`, {
      do: "state",
      in: address("site", here.site),
      line: `structure ${kind} ${topM} m`,
    }),
  );
}
