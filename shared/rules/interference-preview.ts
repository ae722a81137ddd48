import type { InterferenceAt } from "../interference/receiver-result.js";
import { isOwn, type Receiver, type Sender } from "../interference/station.js";
import type { HopInNetwork } from "../network/in-network.js";
import { isSameFrequency } from "../words/interference.js";
import { listed } from "../words/lists.js";
import { fromHub } from "./example-interference.js";
import { exampleHop } from "./example-preamble.js";
import type { NetworkRule } from "./rule.js";

export const interferencePreview: NetworkRule = {
  scope: "network",
  id: "interference-preview",
  severity: "info",
  remarksOn: "interference inputs that are assumed",
  ofResults: true,
  title: "What interference rests on is stated",
  checks:
    "Where any transmitter matters at a receiver: refractivity of the network, terrain below the interfering paths, patterns of the antennas, masks and selectivities of the radios where frequencies are apart, and noise figures of the receivers.",
  why: "Without them the degradation is a preview: with 45 N/km and 325 N-units, reference patterns, raised cosines for the filters, an assumed noise figure, and over unknown ground the least loss that any terrain could give.",
  fix: "State `lapse` and `N0` in `interference`, patterns and `spectrum` in the catalogue, `noise-figure` of the radios, and the terrain.",
  source: "what this program computes; the values are from memory",
  good: exampleHop(),
  bad: fromHub({ channel: 4 }),
  check({ hops, interference, memory, report }) {
    if (interference === undefined) return;
    if (interference.problem !== undefined) {
      report({
        at: "network",
        severity: "error",
        message: `interference could not be computed: ${interference.problem}`,
        help: "Every hop is judged without it. This is a fault of the program.",
      });
      return;
    }
    const felt = memory.each(STEP, hops, feltBy).filter((one) => one !== NOTHING_FELT);
    const first = felt[0]?.terms;
    if (first === undefined) return;
    // As stated, or as the maps have it.
    const { lapseNPerKm, surfaceRefractivity } = first;
    const receivers = felt.reduce((sum, one) => sum + one.receivers, 0);
    const lacks = [
      ...(lapseNPerKm === undefined ? ["lapse (45 N/km taken)"] : []),
      ...(surfaceRefractivity === undefined ? ["N0 (325 taken)"] : []),
      ...counted(
        felt.reduce((sum, one) => sum + one.overAny, 0),
        receivers,
        "terrain",
      ),
      ...named(
        felt.map(({ patterns }) => patterns),
        receivers,
        "patterns of antennas (reference patterns taken)",
      ),
      ...named(
        felt.map(({ spectra }) => spectra),
        receivers,
        "spectra of radios (raised cosine taken)",
      ),
      ...named(
        felt.map(({ noise }) => noise),
        receivers,
        "noise figure (assumed)",
      ),
    ];
    if (lacks.length === 0) return;
    report({
      at: "network",
      message: `interference is a preview: not stated are ${lacks.join("; ")}`,
      help: "Rain scatter is not considered at all.",
    });
  },
};

/** What results at the receivers of a hop rest on that nobody states, of those where any transmitter matters. */
interface Felt {
  readonly receivers: number;
  /** At so many of them some path is taken over any terrain. */
  readonly overAny: number;
  readonly patterns: Lack;
  readonly spectra: Lack;
  readonly noise: Lack;
  /** The network's, so that they are everywhere the same. */
  readonly terms?: InterferenceAt["terms"];
}

/** At how many receivers, and whose: names of catalogue entries, those of others all together. */
interface Lack {
  readonly receivers: number;
  readonly names: readonly string[];
}

const STEP = {};
const NONE: readonly string[] = [];
const NO_LACK: Lack = { receivers: 0, names: NONE };
const NOTHING_FELT: Felt = { receivers: 0, overAny: 0, patterns: NO_LACK, spectra: NO_LACK, noise: NO_LACK };

function feltBy({ interference = [] }: HopInNetwork): Felt {
  const felt = interference.filter(({ entries }) => entries.length > 0);
  if (felt.length === 0) return NOTHING_FELT;
  return {
    receivers: felt.length,
    overAny: felt.filter(({ entries }) => entries.some(({ path }) => path.by === "bound")).length,
    patterns: lackOf(felt.map(withoutPattern)),
    spectra: lackOf(felt.map(withoutSpectrum)),
    noise: lackOf(felt.map(withoutNoise)),
    terms: felt[0]!.terms,
  };
}

function lackOf(names: readonly (readonly string[])[]): Lack {
  const lacking = names.filter((of) => of.length > 0);
  return lacking.length === 0 ? NO_LACK : { receivers: lacking.length, names: once(lacking.flat()) };
}

function counted(count: number, receivers: number, what: string): string[] {
  return count === 0 ? [] : [`${what} at ${count} of ${receivers} receivers`];
}

function named(lacks: readonly Lack[], of: number, what: string): string[] {
  const names = new Set<string>();
  let receivers = 0;
  for (const lack of lacks) {
    receivers += lack.receivers;
    for (const name of lack.names) names.add(name);
  }
  if (receivers === 0) return [];
  const told = [...names].slice(0, MOST_NAMED);
  const more = names.size - told.length;
  const all = more > 0 ? [...told, `${more} more`] : told;
  return counted(receivers, of, `${what}: ${listed(all)},`);
}

const MOST_NAMED = 5;

/** Antennas of this design by name; those of others all together. */
function withoutPattern({ receiver, entries }: InterferenceAt): readonly string[] {
  const stations = [receiver, ...entries.map(({ sender }) => sender)];
  return once(
    stations
      .filter(({ antenna }) => antenna.source !== "pattern")
      .map(({ entries }) => {
        if (entries === undefined) return OTHERS;
        return entries.patternInFile ? `${entries.antenna} (its file is not read)` : entries.antenna;
      }),
  );
}

/** Radios whose filters are taken where they part two frequencies. */
function withoutSpectrum({ receiver, entries }: InterferenceAt): readonly string[] {
  const apart = entries.filter(
    ({ offsetHz, filterDb }) => !isSameFrequency(offsetHz) && filterDb !== undefined,
  );
  if (apart.length === 0) return NONE;
  const radioOf = ({ entries }: Sender | Receiver, what: string): readonly string[] => {
    if (entries === undefined) return [OTHERS];
    return entries.radio === undefined ? [] : [`${entries.radio} (${what})`];
  };
  return once([
    ...(receiver.selectivity.kind === "points" ? [] : radioOf(receiver, "selectivity")),
    ...apart.flatMap(({ sender }) => (sender.spectrum.kind === "points" ? [] : radioOf(sender, "mask"))),
  ]);
}

function withoutNoise({ receiver: { of, noiseAssumed, entries } }: InterferenceAt): readonly string[] {
  return noiseAssumed === true && isOwn(of) ? [entries?.radio ?? of.hop] : NONE;
}

const OTHERS = "transmissions of others";

function once(names: readonly string[]): readonly string[] {
  return names.length === 0 ? NONE : [...new Set(names)];
}
