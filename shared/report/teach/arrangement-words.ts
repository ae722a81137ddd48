/** What is said of arrangements beside their table: protection, words that mislead. Common practice, in our words. */
import type { CouplerKind } from "../../design/catalogue.js";
import type { ArrangementFacts } from "../../radio/arrangements.js";

/** What the second unit is there for, and what to know of it. */
export const PROTECTION_WORDS: Readonly<Record<ArrangementFacts["protection"], string>> = {
  none: "Nothing takes over by itself. With several carriers a committed rate may still stand when one is lost: judge the objective against the rate that remains.",
  "hot-standby":
    "Hot standby protects equipment, not propagation. Receivers switch without a hit while both are good; the transmitter's switch is not hitless and follows the alarm of the far end.",
  "space-diversity":
    "Space diversity protects against multipath and equipment, one antenna with it: both antennas must be clear, and the spacing decides the improvement. Transmission comes from one unit at a time.",
  "frequency-diversity":
    "Frequency diversity protects against multipath and equipment, not the antenna; it needs a second frequency pair, which not every administration grants for it.",
  twin: "The carrier is sent in both polarizations and the better one is taken: equipment is protected, the antenna and what joins the units to it are not. Rain takes the horizontal polarization first.",
  "n+1":
    "One spare carrier stands in for any one of the others; while it does, nothing protects the rest. It helps against multipath of one channel and against equipment.",
};

/** Of every arrangement. */
export const COMMON_PARTS =
  "Common parts remain whatever is doubled: chassis, controller, power, mast, and the antenna and coupler that units share. Nothing here protects against rain: another route or another band does.";

/** Of ends that are built differently. */
export const ONE_END_WORDS =
  "A unit on standby protects its own end alone: where the other has one unit, that one takes the hop down. A second receiving antenna helps the direction that ends at it, and no other. A coupler at one end costs both directions, once each.";

export const COUPLER_TITLES: Readonly<Record<CouplerKind, string>> = {
  hybrid: "hybrid coupler, joins two units of one polarization",
  omt: "orthomode transducer, joins two units of different polarization",
  "dual-polarized":
    "dual-polarized coupler (orthomode transducer and two hybrids in one body), joins four units",
  splitter: "receive splitter with transmit relay, joins two transceivers indoors",
};

export interface AmbiguousWords {
  readonly words: string;
  readonly text: string;
  of(facts: ArrangementFacts): boolean;
}

export const AMBIGUOUS: readonly AmbiguousWords[] = [
  {
    words: "1+1 XPIC",
    text: "Two hot-standby pairs (four units, two working carriers) or one carrier protected by its twin on the other polarization (two units): `two-units` and `four-units` tell them apart.",
    of: ({ name }) => name.startsWith("1+1 xpic"),
  },
  {
    words: "2+0",
    text: "Both carriers in one polarization on a hybrid, or one in each polarization on an orthomode transducer: about 6 dB lie between the two. The language wants polarization and coupling as part of the name.",
    of: ({ workingCarriers, protection }) => workingCarriers > 1 && protection === "none",
  },
  {
    words: "1+1 with two antennas",
    text: "Hot standby with an antenna each at like height, or space diversity at heights that differ on purpose: only the second is counted against multipath.",
    of: ({ transceivers, antennas }) => transceivers === 2 && antennas === 2,
  },
  {
    words: "1+1",
    text: "Hot standby, space diversity or frequency diversity: what they protect and cost differs.",
    of: ({ name }) => name.includes("1+1"),
  },
  {
    words: "coupler loss 3 dB",
    text: "No coupler has it: an equal hybrid loses at least 3.01 dB in each arm, really 3.3 to 3.8 dB, and the signal passes one at each end.",
    of: ({ coupler }) => coupler !== undefined && coupler !== "omt",
  },
  {
    words: "6 dB coupler",
    text: "The standby arm (then the main arm loses at least 1.26 dB), or the total of both ends of an equal one: ask which.",
    of: ({ coupler }) => coupler !== undefined && coupler !== "omt",
  },
  {
    words: "protected",
    text: "Equipment or propagation: ask against what.",
    of: ({ protection }) => protection !== "none",
  },
];
