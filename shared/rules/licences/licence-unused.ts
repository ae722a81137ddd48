import type { Licence } from "../../design/licence.js";
import { NearNames } from "../../format/nearest.js";
import { licenceName, onTheAir } from "../../licence/words.js";
import { exampleHop } from "../example-preamble.js";
import type { NetworkContext, NetworkRule } from "../rule.js";
import { licensedHop } from "./example-licence.js";

export const licenceUnused: NetworkRule = {
  scope: "network",
  id: "licence-unused",
  severity: "warning",
  title: "A licence is for something that is sent",
  checks:
    "Whether the hop of a licence is declared and stands or is still to come, the site is one of its ends, and the end sends something that no other licence is for.",
  why: "Fees run on until a licence is given back, and a frequency that nobody uses is kept from others. A slip in a name takes the licence from the hop that needs it.",
  fix: "Give the licence back and remove it, or mend the name of the hop or site.",
  source: "common practice",
  good: licensedHop("frequency 18.93 GHz"),
  bad: `${exampleHop()}

licence "F-2031/14" of KELD-MOSS from KELD {
  frequency 18.93 GHz
}`,
  check({ design, licences, report }) {
    const names = [...design.hops.keys()];
    for (const licence of design.licences ?? []) {
      const message = withoutHop(licence, design, names);
      if (message !== undefined)
        report({ at: licence.at, about: aboutOf(licence), message, help: GIVE_BACK });
    }
    for (const [name, { hop, spare, notFromEnds }] of licences) {
      const ends = hop.ends.map(({ site }) => site.name).join(" and ");
      for (const licence of notFromEnds) {
        const message = `${licenceName(licence)} is from ${licence.site}, which is no end of ${name}; its ends are ${ends}`;
        report({ at: licence.at, about: aboutOf(licence), message, help: "name the end that sends" }, name);
      }
      for (const licence of spare) {
        const what = onTheAir(licence);
        const message = `${licenceName(licence)} grants ${licence.site} ${what === "" ? "a transmission" : what}, and ${name} sends nothing there that is not licensed already`;
        report({ at: licence.at, about: aboutOf(licence), message, help: GIVE_BACK }, name);
      }
    }
  },
};

const GIVE_BACK = "give the licence back and remove it here, or name what it is for";

function aboutOf({ number, hop, site }: Licence): string {
  return `${number} ${hop} ${site}`;
}

/** Undefined: the hop is there, or is still to come. */
function withoutHop(
  licence: Licence,
  { absentHops }: NetworkContext["design"],
  names: readonly string[],
): string | undefined {
  const absence = absentHops?.get(licence.hop);
  const told = `${licenceName(licence)} is for ${licence.hop}`;
  switch (absence?.is) {
    case "not declared": {
      const near = NearNames.of(names).nearest(licence.hop);
      return `${told}, a hop that the design does not have${near === undefined ? "" : `; did you mean ${near}?`}`;
    }
    case "gone":
      return `${told}, which is taken down${absence.since === undefined ? "" : ` on ${absence.since}`}`;
    default:
      return undefined;
  }
}
