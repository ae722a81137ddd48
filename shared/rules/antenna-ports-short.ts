import { address } from "../design/address.js";
import type { Hop, HopEnd } from "../design/design.js";
import { armCount } from "../equipment/branches.js";
import { FURTHER, joiningOf, type Stand, standsOf } from "../equipment/stands.js";
import { factsAt } from "../radio/arrangement-pairs.js";
import type { ArrangementFacts } from "../radio/arrangements.js";
import { exampleHop } from "./example-preamble.js";
import { addAntenna } from "./fixes/further-antennas.js";
import type { HopRule, Report } from "./rule.js";
import { statedArrangement } from "./stated-arrangement.js";

const RADIO = "polarization vertical\n  radio R18\n  mode 55 MHz 128QAM\n  arrangement";
const two = (half: string, second: string) => `antenna DISH60-18 at 40 m${second}\n    transmits ${half}`;
const TWO_ANTENNAS = (second: string) =>
  exampleHop({
    hop: `${RADIO} 1+1 hot-standby two-antennas`,
    keld: two("high", second),
    tarn: two("low", "\n    second-antenna DISH60-18 at 38 m"),
  });

export const antennaPortsShort: HopRule = {
  scope: "hop",
  id: "antenna-ports-short",
  severity: "error",
  arrangements: ({ transceivers }) => transceivers > 1,
  title: "Every unit needs a place at an antenna",
  checks:
    "Units of the arrangement at each end against the ports of what is stated there: one for an antenna by itself, two for a hybrid or an orthomode transducer, four for a dual-polarized coupler; and both antennas of an arrangement that names two.",
  why: "A part that nobody stated is not ordered, not on the mast and not in the level: the unit lies on the ground.",
  fix: "State the further antenna as `second-antenna`, with what joins units to it as `second-coupler`; or a coupler with more ports.",
  source: "common practice",
  needs: [],
  restsOn: [
    "arrangement",
    "coupler",
    "second-antenna",
    "third-antenna",
    "fourth-antenna",
    "diversity-antenna",
    "second-coupler",
    "third-coupler",
    "fourth-coupler",
  ],
  fixes: addAntenna,
  good: TWO_ANTENNAS("\n    second-antenna DISH60-18 at 38 m"),
  bad: TWO_ANTENNAS(""),
  check({ hop, report }) {
    for (const end of hop.ends) {
      const facts = factsAt(hop, end);
      // Before the first antenna is stated, that is what is missing.
      if (facts !== undefined && end.antenna !== undefined) tell(hop, end, facts, report);
    }
  },
};

function tell(hop: Hop, end: HopEnd, facts: ArrangementFacts, report: (finding: Report) => void): void {
  const stands = standsOf(end, facts);
  const there = stands.filter(({ antenna }) => antenna !== undefined);
  const { joins, left } = joiningOf(stands, facts);
  const named = facts.coupler === undefined && !facts.spaceDiversity && there.length < facts.antennas;
  if (left === 0 && !named) return;
  const { name } = facts;
  const units = facts.transceivers;
  const last = there.at(-1)!;
  const apart = facts.coupler === undefined;
  const taken = joins.reduce((sum, join) => sum + armCount(join), 0);
  report({
    at: address("hop", hop.name, end.site.name, last.fact),
    message: apart
      ? `${name} has an antenna for each of its ${units} units; ${end.site.name} states one`
      : `${name} has ${units} units at ${end.site.name}; ${what(there)} ${there.length > 1 ? "take" : "takes"} ${Math.min(taken, units - left)}`,
    help: apart ? helpApart(facts) : helpTogether(facts, stands),
    related: [statedArrangement(hop, end)],
  });
}

function what(there: readonly Stand[]): string {
  return there
    .map(({ antenna, coupler }) => (coupler ? `${antenna!.name} with ${coupler.name}` : antenna!.name))
    .join(" and ");
}

function helpApart({ spaceDiversity }: ArrangementFacts): string {
  return spaceDiversity
    ? "State the second one as `diversity-antenna`, or a hybrid that joins both units to the first as `coupler`."
    : "State the other as `second-antenna`.";
}

function helpTogether(facts: ArrangementFacts, stands: readonly Stand[]): string | undefined {
  const next = FURTHER[stands.length - 1];
  const small = facts.coupler === "dual-polarized" && stands.some(({ coupler }) => coupler?.kind === "omt");
  const ways = [
    next &&
      `state a further antenna as \`${next}-antenna\`, and what joins units to it as \`${next}-coupler\``,
    small ? "take a dual-polarized coupler, which joins four" : undefined,
  ].filter((way) => way !== undefined);
  const text = ways.join("; or ");
  return text === "" ? undefined : `${text[0]!.toUpperCase()}${text.slice(1)}.`;
}
