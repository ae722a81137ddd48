import { address } from "../../design/address.js";
import type { Hop } from "../../design/design.js";
import type { SubBand } from "../../design/equipment.js";
import type { Fix } from "../../design/fact-change.js";
import { frequenciesOf, holds } from "../../equipment/sub-band.js";
import { frequency } from "../../format/numbers.js";
import { furtherAddress, furtherWords } from "../carriers.js";
import { exampleHop } from "../example-preamble.js";
import { decision, endHere, type Mending } from "../fixes/mending.js";
import type { HopContext, HopRule } from "../rule.js";

const TWO_SUB_BANDS = `radio R18S like R18 {
  sub-band A low 17.7 GHz to 18.2 GHz high 18.71 GHz up to 19.21 GHz
  sub-band B low 18.19 GHz to 18.69 GHz high 19.2 GHz up to 19.7 GHz
}

`;

const RADIO = "polarization vertical\n  radio R18S\n  mode 55 MHz 128QAM\n  arrangement 1+0";

export const subBand: HopRule = {
  scope: "hop",
  id: "sub-band",
  severity: "error",
  title: "The sub-band of the units must hold the channel",
  checks:
    "Both frequencies of the hop against the sub-band that an end states, or against all of the radio; those of a further channel against all.",
  why: "Units are ordered by half and sub-band. One of another sub-band cannot be tuned to the channel, and waits for its exchange.",
  fix: "State the sub-band that holds the channel, or leave it out to have it chosen.",
  source: "common practice",
  needs: [],
  quietAfter: ["both-ends-same-half", "frequency-outside-tuning", "duplex-mismatch"],
  fixes: otherSubBand,
  good: TWO_SUB_BANDS + exampleHop({ hop: RADIO }),
  bad:
    TWO_SUB_BANDS +
    exampleHop({ hop: RADIO, keld: "antenna DISH60-18 at 40 m\n    transmits high\n    unit-sub-band B" }),
  check({ hop, report }) {
    const subBands = hop.radio?.unit?.subBands ?? [];
    if (subBands.length > 0) checkFurther(hop, subBands, report);
    const frequencies = frequenciesOf(hop);
    if (subBands.length === 0 || frequencies === undefined) return;
    const fitting = subBands.filter((one) => holds(one, frequencies)).map(({ name }) => name);
    const used = `${frequency(frequencies.lowHz)} and ${frequency(frequencies.highHz)}`;
    if (fitting.length === 0) {
      report({
        at: address("hop", hop.name, "radio"),
        message: `no sub-band of ${hop.radio!.name} holds ${used} together`,
        related: [{ at: address("radio", hop.radio!.name, "sub-band"), message: "its sub-bands" }],
      });
      return;
    }
    for (const [site, name] of statedAt(hop)) {
      if (fitting.includes(name)) continue;
      const known = subBands.some((one) => one.name === name);
      report({
        at: address("hop", hop.name, site, "unit-sub-band"),
        message: known
          ? `sub-band ${name} at ${site} does not hold ${used}`
          : `${hop.radio!.name} has no sub-band ${name}`,
        help: `${fitting.join(" or ")} holds them.`,
      });
    }
  },
};

/** The units of a further channel may be of a sub-band of their own. */
function checkFurther(hop: Hop, subBands: readonly SubBand[], report: HopContext["report"]): void {
  for (const [index, { lowHz, highHz }] of (hop.furtherChannels ?? []).entries()) {
    if (lowHz === undefined || highHz === undefined) continue;
    if (subBands.some((one) => holds(one, { lowHz, highHz }))) continue;
    report({
      at: furtherAddress(hop, index),
      message: `no sub-band of ${hop.radio!.name} holds ${frequency(lowHz)} and ${frequency(highHz)} of the ${furtherWords(index)} together`,
      related: [{ at: address("radio", hop.radio!.name, "sub-band"), message: "its sub-bands" }],
    });
  }
}

function statedAt(hop: Hop): (readonly [string, string])[] {
  return hop.ends.flatMap(({ site, installation }) =>
    installation?.subBand === undefined ? [] : [[site.name, installation.subBand] as const],
  );
}

/** The sub-bands that hold the hop's frequencies, in place of the stated one. */
function otherSubBand(mending: Mending): readonly Fix[] {
  const here = endHere(mending);
  const frequencies = here && frequenciesOf(here.hop);
  if (!here || !frequencies) return [];
  return (here.hop.radio?.unit?.subBands ?? [])
    .filter((one) => holds(one, frequencies))
    .map(({ name }) =>
      decision(`Take sub-band ${name} at ${here.site} (changes the units ordered)`, {
        do: "replace",
        at: `${here.at} / unit-sub-band`,
        argument: "name",
        by: name,
      }),
    );
}
