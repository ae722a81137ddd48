/** Names of things to refer to, those that suit the hop first. */
import type { FrequencyRange } from "../../shared/design/frequency-range.js";
import { suits as suitsArrangement } from "../../shared/equipment/stands.js";
import { arrangementByName } from "../../shared/radio/arrangements.js";
import { type Fact, wordOf } from "../facts/fact.js";
import type { NamedKind } from "../schema/kinds.js";
import type { ArgSpec } from "../schema/types.js";
import type { Expected } from "./expected.js";
import { KINDS_SHOWN, titleOf } from "./kinds-shown.js";
import type { Proposal } from "./proposal.js";
import { endFact, hopFact, hopFacts, hopFrequencyHz, type Scene, siteNamesOfEnds } from "./scene.js";

export function nameItems(
  scene: Scene,
  expected: Expected,
  spec: ArgSpec,
  kind: NamedKind,
): readonly Proposal[] {
  const { model } = scene;
  return candidates(scene, expected, spec, kind).map((name) => {
    const lines = KINDS_SHOWN[kind].lines(model, name);
    return {
      label: name,
      kind: "name",
      insertText: name,
      detail: titleOf(model, kind, name) ?? lines[0],
      documentation: lines.length > 0 ? lines.map((line) => `- ${line}`).join("\n") : undefined,
      rank: suits(scene, kind, name) ? 0 : 1,
    };
  });
}

function candidates(scene: Scene, expected: Expected, spec: ArgSpec, kind: NamedKind): readonly string[] {
  const { model } = scene;
  // `from` counts from an end of the hop.
  const ends = kind === "site" ? siteNamesOfEnds(hopFacts(scene) ?? licensedHopFacts(scene, expected)) : [];
  if (ends.length > 0) return ends.filter((name) => model.declarations(`site ${name}`).length > 0);
  const inherits = spec.label === "like";
  const self = inherits ? wordOf(expected.fact, "name") : undefined;
  const inList = new Set(spec.list || spec.label === "to" ? namesIn(expected.fact) : []);
  return model
    .names(kind)
    .filter((name) => !inList.has(name))
    .filter((name) => name !== self && (inherits || !model.declarations(`${kind} ${name}`)[0]?.template));
}

/** Of the hop that a licence is for: what sends is one of its ends. */
function licensedHopFacts({ model }: Scene, { fact, property }: Expected): readonly Fact[] {
  if (property.block !== "licence") return [];
  return model.declarations(`hop ${wordOf(fact, "of")}`)[0]?.fact.facts ?? [];
}

/** What a route passes already, and where a demand begins, are named once. */
function namesIn({ args }: Fact): readonly string[] {
  return args.flatMap(({ value }) => (value?.type === "reference" ? value.name : []));
}

/** Whether a thing is made for the frequency of the hop, and a coupler for the arrangement of its end. */
function suits(scene: Scene, kind: NamedKind, name: string): boolean {
  const { lookup } = scene.model;
  const hz = hopFrequencyHz(scene);
  switch (kind) {
    case "radio":
      return covers(lookup.radio(name)?.tuning, hz);
    case "antenna":
      return covers(lookup.antenna(name)?.band, hz);
    case "feeder":
      return covers(lookup.feeder(name)?.band, hz);
    case "coupler": {
      const coupler = lookup.coupler(name);
      const facts = arrangementByName(
        wordOf(endFact(scene, "arrangement") ?? hopFact(scene, "arrangement"), "value") ?? "",
      );
      const kind = coupler?.kind;
      const isSuiting = facts?.coupler === undefined || (kind !== undefined && suitsArrangement(kind, facts));
      return covers(coupler?.band, hz) && isSuiting;
    }
    default:
      return true;
  }
}

function covers(band: FrequencyRange | undefined, hz: number | undefined): boolean {
  return band === undefined || hz === undefined || (band.fromHz <= hz && hz <= band.toHz);
}
