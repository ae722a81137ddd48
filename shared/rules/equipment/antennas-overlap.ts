import { address } from "../../design/address.js";
import type { SiteEnd } from "../../equipment/site-plan.js";
import { type HungAntenna, hungAntennas, overlaps } from "../../equipment/structure-load.js";
import { apart, metres } from "../../format/numbers.js";
import type { SiteInNetwork } from "../../network/sites.js";
import { exampleHop } from "../example-preamble.js";
import type { SiteRule } from "../rule.js";

const second = (height: number) => `site MOSS {
  at 47.56 -30.41
  structure mast 60 m
}

${exampleHop()}

${exampleHop({ keld: `antenna DISH60-18 at ${height} m\n    transmits high` }).replaceAll("TARN", "MOSS")}`;

export const antennasOverlap: SiteRule = {
  scope: "network",
  each: "site",
  ofResults: true,
  id: "antennas-overlap",
  severity: "warning",
  title: "Antennas of one face must not stand in each other's way",
  checks:
    "Heights of antennas that look within 45 degrees of each other, against both radii and 0.2 m for brackets and movement.",
  why: "Two antennas at one height and one face collide, or one looks into the other's back.",
  fix: "Move one of them, or accept it where they hang on different legs.",
  source: "common practice",
  good: second(44),
  bad: second(40),
  check({ report, ...at }) {
    const { plan } = at;
    for (const { one, other, apartM, neededM } of overlaps(hungAntennas(plan), azimuthAt(at))) {
      const hop = other.end.hop.name;
      report(
        {
          at: address("hop", hop, plan.site.name, `${other.role}.at`),
          message: `the antennas of ${hop} and ${one.end.hop.name} at ${plan.site.name} are ${apart(metres, apartM, neededM).join(" apart on one face; with their radii they need ")}`,
          related: [{ at: place(one), message: `${one.antenna.name} at ${metres(one.heightM)}` }],
        },
        hop,
      );
    }
  },
};

function place({ end, role }: HungAntenna) {
  return address("hop", end.hop.name, end.end.site.name, role);
}

function azimuthAt({ plan, results }: SiteInNetwork) {
  return (end: SiteEnd) =>
    results[plan.ends.indexOf(end)]?.geometry?.find(({ site }) => site === plan.site.name)?.azimuthDeg;
}
