import type { Design } from "../design/design.js";
import { antennasStated } from "../equipment/stands.js";
import type { InterferenceAt } from "../interference/receiver-result.js";
import { isOwn, type Owner } from "../interference/station.js";
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
  check({ design, interference, report }) {
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
    const found = [...design.hops.keys()].flatMap((hop) => interference.of(hop));
    const felt = found.filter(({ entries }) => entries.length > 0);
    if (felt.length === 0) return;
    // As stated, or as the maps have it.
    const { lapseNPerKm, surfaceRefractivity } = felt[0]!.terms;
    const lacks = [
      ...(lapseNPerKm === undefined ? ["lapse (45 N/km taken)"] : []),
      ...(surfaceRefractivity === undefined ? ["N0 (325 taken)"] : []),
      ...counted(felt, ({ entries }) => entries.some(({ path }) => path.by === "bound"), "terrain"),
      ...named(
        felt,
        felt.filter(hasReference).flatMap((at) => withoutPattern(design, at)),
        "patterns of antennas (reference patterns taken)",
      ),
      ...named(
        felt,
        felt.flatMap((at) => withoutMask(design, at)),
        "spectra of radios (raised cosine taken)",
      ),
      ...named(
        felt,
        felt.flatMap((at) => withoutNoise(design, at)),
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

function counted(
  found: readonly InterferenceAt[],
  lacks: (at: InterferenceAt) => boolean,
  what: string,
): string[] {
  const count = found.filter(lacks).length;
  if (count === 0) return [];
  return [`${what} at ${count} of ${found.length} receivers`];
}

/** @param whose with what each of them lacks, once for each receiver */
function named(felt: readonly InterferenceAt[], whose: readonly Lacking[], what: string): string[] {
  const names = [...new Set(whose.map(({ name }) => name))];
  if (names.length === 0) return [];
  const count = new Set(whose.map(({ at }) => at)).size;
  const told = names.slice(0, MOST_NAMED);
  const more = names.length - told.length;
  const all = more > 0 ? [...told, `${more} more`] : told;
  return [`${what}: ${listed(all)}, at ${count} of ${felt.length} receivers`];
}

const MOST_NAMED = 5;

interface Lacking {
  readonly name: string;
  readonly at: InterferenceAt;
}

/** Antennas of this design by name; those of others all together. */
function withoutPattern({ hops }: Design, at: InterferenceAt): readonly Lacking[] {
  const stations = [at.receiver, ...at.entries.map(({ sender }) => sender)];
  return stations
    .filter(({ antenna }) => antenna.source !== "pattern")
    .flatMap(({ of, place }) => {
      if (!isOwn(of)) return [{ name: OTHERS, at }];
      const end = hops.get(of.hop)?.ends.find(({ site }) => site.name === place.site);
      const antennas = end === undefined ? [] : antennasStated(end).flatMap(({ antenna }) => antenna ?? []);
      return antennas
        .filter(({ pattern }) => pattern.length === 0)
        .map(({ name, patternFile }) => ({
          name: patternFile === undefined ? name : `${name} (its file is not read)`,
          at,
        }));
    });
}

/** Radios whose filters are taken where they part two frequencies. */
function withoutMask({ hops }: Design, at: InterferenceAt): readonly Lacking[] {
  const apart = at.entries.filter(
    ({ offsetHz, filterDb }) => !isSameFrequency(offsetHz) && filterDb !== undefined,
  );
  if (apart.length === 0) return [];
  const radioOf = (of: Owner, what: string): Lacking[] => {
    if (!isOwn(of)) return [{ name: OTHERS, at }];
    const radio = hops.get(of.hop)?.radio;
    return radio === undefined ? [] : [{ name: `${radio.name} (${what})`, at }];
  };
  return [
    ...(at.receiver.selectivity.kind === "points" ? [] : radioOf(at.receiver.of, "selectivity")),
    ...apart.flatMap(({ sender }) => (sender.spectrum.kind === "points" ? [] : radioOf(sender.of, "mask"))),
  ];
}

function withoutNoise({ hops }: Design, at: InterferenceAt): readonly Lacking[] {
  const { of, noiseAssumed } = at.receiver;
  if (noiseAssumed !== true || !isOwn(of)) return [];
  return [{ name: hops.get(of.hop)?.radio?.name ?? of.hop, at }];
}

const OTHERS = "transmissions of others";

function hasReference({ receiver, entries }: InterferenceAt): boolean {
  return (
    receiver.antenna.source !== "pattern" || entries.some(({ sender }) => sender.antenna.source !== "pattern")
  );
}
