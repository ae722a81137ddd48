/** Remarks of an evaluation as sentences. A code without words does not compile. */
import type { LeftOut, Note, NoteCode, NoteOf, Speaker } from "../evaluate/account/note.js";
import { decibels, kFactor, kilometres, trimmed } from "../format/numbers.js";
import type { DiffractionRemark } from "../propagation/p526/delta-bullington.js";
import { stretchTold } from "./gaps.js";
import { type Message, message } from "./message.js";
import { refusalWords, remarkWords } from "./remarks.js";

/** Words of one code. */
type NoteWords = { readonly [C in NoteCode]: (note: NoteOf<C>) => string };

const NEAREST_POINT = "taken from its nearest point; the catalogue does not reach this frequency.";

const NOTE_WORDS: NoteWords = {
  "method-remark": ({ of, remark }) => `${SPEAKERS[of]}${remarkWords(remark)}`,
  "method-refuses": ({ of, reason }) => `${SPEAKERS[of]}${refusalWords(reason)}`,
  "method-left-out": ({ method }) =>
    `${leftOutWords(method)}: left out, since its method is not checked against the Recommendation.`,

  "ground-bridged": (stretch) =>
    `Ground ${stretchTold(stretch)} is not known; a straight line stands in for it, as the network states with bridge-gaps.`,
  "obstacles-not-counted": () => "Not every obstacle could be counted.",
  "known-ground-only": () =>
    "Clearance, levels and margins are those of the known ground; where they are met, the rest leaves them open.",

  "gain-estimated": ({ antenna, efficiency }) =>
    `Gain of ${antenna} estimated from its diameter with ${trimmed(100 * efficiency, 1)} % efficiency.`,
  "gain-of-nearest-point": ({ antenna }) => `Gain of ${antenna} ${NEAREST_POINT}`,
  "loss-of-nearest-point": ({ feeder }) => `Loss of ${feeder} ${NEAREST_POINT}`,
  "guide-loss-estimated": ({ site, lossDb }) =>
    `Loss of the waveguide at ${site}, which is still to be chosen, is estimated: ${decibels(lossDb)}.`,
  "gases-not-counted": ({ why }) =>
    why === "frequency"
      ? "Gases are not counted: their method covers 1 to 1000 GHz."
      : "Gases are not counted: temperature, pressure and water vapour of the climate describe no air.",
  "path-below-sea-level": () =>
    "The path lies below sea level, outside the stated range of the reference atmosphere.",
  "path-above-reference-air": () => "The path lies above 9 km; its air is taken as at 9 km.",
  "diffraction-remark": ({ remark }) => `Diffraction: ${diffractionWords(remark)}.`,
  "median-diffraction-loss": ({ kFactor: k }) =>
    `The level diagram holds a median diffraction loss, at ${kFactor(k)}.`,
  "channel-open": ({ plan, number, count }) =>
    `The channel number is still to be chosen: level, gases and rain are those of channel ${number}, the highest of ${count} of ${plan}, and clearance that of the lowest.`,
  "carriers-cross": ({ ends: [one, other] }) =>
    `The carriers cross on the unequal couplers: ${one.branch} is on the ${one.arm} arm at ${one.site} and on the ${other.arm} arm at ${other.site}.`,
  "level-of-weakest-carrier": ({ from, to, carrier }) =>
    `The level from ${from} to ${to} is that of ${carrier}, of which least arrives.`,
  "further-ray-loses-more": ({ of, ray, moreDb }) => {
    const more = `${decibels(moreDb)} more by diffraction than the first antenna's`;
    return of === "diversity"
      ? `The ray to the ${ray} loses ${more}; diversity counts it like so much less gain.`
      : `The ray of the ${ray} loses ${more}.`;
  },

  "multipath-not-on-short-paths": () => "Up to 5 km multipath is not reckoned with.",
  "quick-method-stands-in": ({ lacks }) =>
    lacks === "mean-terrain"
      ? "Multipath: logK and dN75 serve with the mean height of the terrain only, which is not known without a profile; the quick method stands in."
      : "Multipath: the climate gives neither logK with dN75 nor dN1; the quick method stands in.",
  "multipath-initial-planning": () =>
    "Multipath by the initial-planning method of P.530-17 from dN1, since the terrain's roughness is not known; logK and dN75 would serve the present edition.",
  "multipath-detailed-preceding": () =>
    "Multipath by the detailed method of P.530-17; logK and dN75 would serve the present edition.",
  "multipath-quick": () => "Multipath by the quick method for early planning of P.530-17.",
  "multipath-early-planning": ({ assumedDN1 }) =>
    `Multipath for early planning only: the quick method with an assumed gradient of ${assumedDN1} N/km; the outage of the place may differ several times.`,
  "ducts-likely": ({ belowDN1 }) =>
    `Multipath: dN1 lies below ${belowDN1} N/km, so that in more than 1 % of the year ducts may form near the ground; a path that a duct leads astray is not in these methods.`,
  "fading-as-of-clear-path": () =>
    "Fading is computed as for a clear path; over an obstruction it is deeper.",
  "selective-fading-not-counted": () =>
    "Selective fading is not counted: the radio gives neither a signature nor a dispersive margin.",
  "deep-fading-factor": () =>
    "Clear air: selective, diversity and cross-polar outage of the worst month pass to the year by the factor of deep fading (section 2.3.4); our own rule.",

  "frequency-diversity-not-counted": () =>
    "Frequency diversity is not counted: the second channel is not stated.",
  "space-diversity-not-counted": ({ site, why }) =>
    `Space diversity is not counted towards ${site}: ${NO_DIVERSITY[why]}.`,
  "diversity-feeder-assumed": () =>
    "Space diversity: the feeder of the second antenna is taken to lose as much as the first.",

  "cross-polar-not-counted": ({ modulation }) =>
    modulation === undefined
      ? "Cross-polar interference is not counted: an antenna's xpd is not in the catalogue."
      : `Cross-polar interference is not counted for ${modulation}: neither its SNR nor the radio's noise figure is known.`,

  "both-polarizations": () =>
    "Both polarizations are on the air; the hop is judged for the worse, horizontal.",
  "rain-zone-superseded": ({ zone }) =>
    `Rain zone ${zone} is superseded; a local rain rate at 0.01 % is better.`,
  "rain-alone-counted": ({ reason }) =>
    `Rain alone is counted: ${
      reason === undefined
        ? "the path may reach into the melting layer, but the probability of rain is not known."
        : refusalWords(reason)
    }`,
  "wet-snow-counted": () => "Rain and wet snow are counted together.",
  "path-above-precipitation": () => "The path lies above all precipitation that attenuates.",
  "rain-beyond-law": () => "Rain takes more than 1 % of the year, where its law ends; 1 % is counted.",
  "rain-below-law-bounded": () =>
    "Rain takes less than 0.001 % of the year, where its law ends; the full 0.001 % are counted, as the climate's `rare-rain bound` asks.",
  "rain-below-law-estimated": ({ never }) =>
    `Rain takes less than 0.001 % of the year, outside the range of its law (Rec. ITU-R P.530-18 section 2.4.1), ${
      never ? "which continued never takes the margin" : "continued in its own form"
    }: an estimate; the Recommendation itself says at most 0.001 %.`,

  "directions-together": () =>
    "Both directions together: rain counts once (the worse direction), multipath is the sum of both directions.",
  "higher-mode-after-hysteresis": () =>
    "Adaptive modulation: a higher mode counts as lost until the level has come back by the hysteresis.",
  "availability-without-equipment": () =>
    "The availability is that of propagation alone; equipment failures come on top.",
  "availability-beside-equipment": () =>
    "The availability is that of propagation; equipment failures are told beside it.",
  "equipment-not-counted": ({ radio }) =>
    `Equipment availability is not counted: ${
      radio === undefined ? "the hop states no repair-time" : `${radio} states no mtbf`
    }.`,
  "equipment-outage-unknown": () => "Equipment outage: not known for this arrangement.",
  "channels-not-stated": ({ carriers, stated, asked }) =>
    `Capacity counts ${carriers} carriers; ${stated} of their ${asked} channels ${stated === 1 ? "is" : "are"} stated.`,

  "surface-not-counted": ({ surface, fromM, toM, reason }) =>
    `The ${surface} surface from ${kilometres(fromM)} to ${kilometres(toM)} is not counted: ${
      reason === undefined ? "its height is neither stated nor in the profile." : refusalWords(reason)
    }`,

  "if-loss-equalized": () =>
    "The unit equalizes the loss of its IF cable: it is in no level diagram. Beyond the limit the unit does not start.",
  "cable-of-one-point": ({ cable }) =>
    `The catalogue gives the loss of ${cable} at one frequency only; to others it is taken to grow with the square root alone.`,
  "standby-measured-by-switching": () =>
    "Each branch is measured when the hop is turned up, those on standby by forcing the switch.",
  "parts-not-counted": ({ parts }) =>
    `The sum is too small: the catalogue has no figure of ${parts.join(", ")}.`,
  "structure-planning-aid": ({ leftOut }) =>
    `A planning aid: a structure is released by a structural engineer under the national code. Not in the sum: ${leftOut.join(", ")}.`,
  "battery-at-rated-rate": () =>
    "A battery gives less when it is discharged faster than at its rated rate: state the capacity at the rate of this load.",
  "ports-searched": ({ search }) => PORTS_SEARCHED[search],
};

const PORTS_SEARCHED: Readonly<Record<NoteOf<"ports-searched">["search"], string>> = {
  found:
    "Ports given one by one would leave a unit without one or part a pair; all open ones were placed by a search.",
  none: "All ways to place the open ports were tried: there is none.",
  "given up":
    "So many ways to place the open ports were tried that the search was ended; there may be one, and `if-port` states it.",
};

/** What a remark begins with, where its method alone would not say what it is of. */
const SPEAKERS: Readonly<Record<Speaker, string>> = {
  multipath: "",
  rain: "",
  "specific-rain": "Specific attenuation of rain: ",
  "rain-scaling": "Rain scaled with frequency: ",
  diversity: "Diversity: ",
  "cross-polar-in-rain": "Cross-polar interference in rain: ",
  equipment: "Equipment outage: ",
  "rain-in-the-worst-month": "Rain in the worst month: ",
};

const NO_DIVERSITY: Readonly<Record<NoteOf<"space-diversity-not-counted">["why"], string>> = {
  "not-stated": "its diversity antenna or a height is not stated",
  "gain-unknown": "the gain of an antenna is not known",
  "one-height": "both antennas are at one height",
};

const LEFT_OUT: Readonly<Record<LeftOut, string>> = {
  "selective-fading": "Selective fading",
  diversity: "Improvement by diversity",
  "rain-scaling-with-polarization": "Rain outage by the scaling with polarization",
  "rain-zone": "Rain zone",
  "rain-in-the-worst-month": "Rain in the worst month",
  "link-availability": "Availability of the link after F.1703",
  "link-quality": "Severely errored seconds after F.1668",
};

/** For the word functions of this folder. */
export function leftOutWords(method: LeftOut): string {
  return LEFT_OUT[method];
}

const DIFFRACTION: {
  readonly [C in DiffractionRemark["code"]]: (
    one: Extract<DiffractionRemark, { readonly code: C }>,
  ) => string;
} = {
  "terrain-unknown": () => "no inner point of the profile has a height: the terrain part is unknown",
  "points-left-out": ({ unknown, of }) =>
    `${unknown} of ${of} profile points have no height and were left out`,
  "spherical-left-out": () =>
    "an antenna is not above the smooth surface: the spherical part is left out, the loss is a lower bound",
};

function diffractionWords(remark: DiffractionRemark): string {
  return (DIFFRACTION[remark.code] as (one: DiffractionRemark) => string)(remark);
}

/** As a sentence. */
export function noteMessage(note: Note): Message {
  return message((NOTE_WORDS[note.code] as (one: Note) => string)(note));
}
