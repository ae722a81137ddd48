import type { InterferenceAt } from "../interference/receiver-result.js";
import { isOwn, type Receiver, type Sender } from "../interference/station.js";
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
  check({ design, interference, memory, report }) {
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
    const felt = [...design.hops.keys()].flatMap((hop) =>
      interference.of(hop).filter(({ entries }) => entries.length > 0),
    );
    if (felt.length === 0) return;
    // As stated, or as the maps have it.
    const { lapseNPerKm, surfaceRefractivity } = felt[0]!.terms;
    const taken = felt.map((at) => memory.of(STEP, at, takenAt)).filter((one) => one !== NOTHING);
    const lacks = [
      ...(lapseNPerKm === undefined ? ["lapse (45 N/km taken)"] : []),
      ...(surfaceRefractivity === undefined ? ["N0 (325 taken)"] : []),
      ...counted(taken.filter(({ overAny }) => overAny).length, felt, "terrain"),
      ...named(taken, "patterns", felt, "patterns of antennas (reference patterns taken)"),
      ...named(taken, "spectra", felt, "spectra of radios (raised cosine taken)"),
      ...named(taken, "noise", felt, "noise figure (assumed)"),
    ];
    if (lacks.length === 0) return;
    report({
      at: "network",
      message: `interference is a preview: not stated are ${lacks.join("; ")}`,
      help: "Rain scatter is not considered at all.",
    });
  },
};

/** What a result at a receiver rests on that nobody states. */
interface Taken {
  /** Some path is taken over any terrain. */
  readonly overAny: boolean;
  /** Names of catalogue entries without them, those of others all together; each once. */
  readonly patterns: readonly string[];
  readonly spectra: readonly string[];
  readonly noise: readonly string[];
}

const STEP = {};
const NONE: readonly string[] = [];
const NOTHING: Taken = { overAny: false, patterns: NONE, spectra: NONE, noise: NONE };

function takenAt(at: InterferenceAt): Taken {
  const taken: Taken = {
    overAny: at.entries.some(({ path }) => path.by === "bound"),
    patterns: withoutPattern(at),
    spectra: withoutSpectrum(at),
    noise: withoutNoise(at),
  };
  const isNone = !taken.overAny && taken.patterns.length + taken.spectra.length + taken.noise.length === 0;
  return isNone ? NOTHING : taken;
}

function counted(count: number, felt: readonly InterferenceAt[], what: string): string[] {
  return count === 0 ? [] : [`${what} at ${count} of ${felt.length} receivers`];
}

function named(
  taken: readonly Taken[],
  kind: "patterns" | "spectra" | "noise",
  felt: readonly InterferenceAt[],
  what: string,
): string[] {
  const names = new Set<string>();
  let count = 0;
  for (const { [kind]: of } of taken) {
    if (of.length > 0) count++;
    for (const name of of) names.add(name);
  }
  if (count === 0) return [];
  const told = [...names].slice(0, MOST_NAMED);
  const more = names.size - told.length;
  const all = more > 0 ? [...told, `${more} more`] : told;
  return counted(count, felt, `${what}: ${listed(all)},`);
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
