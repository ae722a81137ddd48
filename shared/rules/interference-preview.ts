import type { InterferenceAt } from "../interference/receiver-result.js";
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
    "Where any transmitter matters at a receiver: refractivity of the network, terrain below the interfering paths, patterns of the antennas, and noise figures of the receivers.",
  why: "Without them the degradation is a preview: with 45 N/km and 325 N-units, reference patterns, an assumed noise figure, and over unknown ground the least loss that any terrain could give.",
  fix: "State `lapse` and `N0` in `interference`, patterns in the catalogue, `noise-figure` of the radios, and the terrain.",
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
      ...counted(felt, hasReference, "antenna patterns (reference patterns taken)"),
      ...counted(felt, ({ receiver }) => receiver.noiseAssumed === true, "noise figure (assumed)"),
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

function hasReference({ receiver, entries }: InterferenceAt): boolean {
  return (
    receiver.antenna.source !== "pattern" || entries.some(({ sender }) => sender.antenna.source !== "pattern")
  );
}
