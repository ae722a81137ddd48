/** Other antennas and couplers of the design's catalogue that suit the hop. */
import type { Antenna, Coupler, HopEnd } from "../../../shared/design/design.js";
import type { FrequencyRange } from "../../../shared/design/frequency-range.js";
import { leadTo } from "../../../shared/equipment/mounting.js";
import { antennasStated, type Stand, suits } from "../../../shared/equipment/stands.js";
import { arrangementByName } from "../../../shared/radio/arrangements.js";
import { argument, factNamed } from "../../facts/fact.js";
import type { DesignModel } from "../../model/design-model.js";
import type { JudgedHop } from "../results.js";
import { endInText, insertLine, removeFact, replaceArgument } from "./edits.js";
import type { QuickFix, ToMend } from "./fix.js";
import { pieceEdit } from "./waveguide.js";

/** The next larger antennas for the hop's frequency, at each end alone. */
function largerAntenna(toMend: ToMend): readonly QuickFix[] {
  const { judged, model } = toMend;
  if (!judged) return [];
  const byEnd = judged.hop.ends.map((end) => {
    const larger = antennasFor(
      model,
      judged,
      (one) => (one.diameterM ?? 0) > (end.antenna?.diameterM ?? Number.POSITIVE_INFINITY),
    );
    return larger.sort(bySize).flatMap((one) => antennaFix(toMend, judged, end, one));
  });
  // Sizes in turn, so that the smallest change at either end is tried first.
  return interleave(byEnd);
}

/** Antennas for the frequency, those of nearly the same size first. */
export function otherAntenna(toMend: ToMend): readonly QuickFix[] {
  const { judged, model, finding } = toMend;
  const end = endOf(toMend);
  if (!judged || !end) return [];
  const { antenna, fact } = standOf(toMend, end);
  const sizeM = antenna?.diameterM ?? 0;
  const wantsDual = finding.rule === "antenna-single-polarized";
  return antennasFor(
    model,
    judged,
    (one) => one.name !== antenna?.name && (!wantsDual || one.polarizations === "dual"),
  )
    .sort((a, b) => Math.abs((a.diameterM ?? 0) - sizeM) - Math.abs((b.diameterM ?? 0) - sizeM))
    .flatMap((one) => antennaFix(toMend, judged, end, one, fact));
}

export function addCoupler(toMend: ToMend): readonly QuickFix[] {
  const { judged, model, finding } = toMend;
  const end = endOf(toMend);
  const block = judged && end && endInText(model, judged.hop.name, end.site.name);
  if (!block) return [];
  const { couplerFact } = standOf(toMend, end);
  return couplersFor(model, judged).flatMap(({ name }) => {
    const edit = insertLine(model, block, couplerFact, `${couplerFact} ${name}`);
    return edit
      ? [
          {
            title: `Add coupler ${name} at ${end.site.name} (changes the equipment)`,
            edits: [edit],
            rule: finding.rule,
            changesDecision: true,
          },
        ]
      : [];
  });
}

export function otherCoupler(toMend: ToMend): readonly QuickFix[] {
  const { judged, model, finding } = toMend;
  const end = endOf(toMend);
  const block = judged && end && endInText(model, judged.hop.name, end.site.name);
  const stand = end && standOf(toMend, end);
  const arg = block && stand && argument(factNamed(block.fact.facts, stand.couplerFact), "coupler");
  if (!block || !stand || !arg) return [];
  return couplersFor(model, judged)
    .filter(({ name }) => name !== stand.coupler?.name)
    .map(({ name }) => ({
      title: `Take coupler ${name} at ${end.site.name} (changes the equipment)`,
      edits: [replaceArgument(block.file, arg, name)],
      rule: finding.rule,
      changesDecision: true,
    }));
}

/** Couplers whose arms lose less apart, at both ends and at each alone; then larger antennas. */
export function lessUnequal(toMend: ToMend): readonly QuickFix[] {
  const { judged, model, finding } = toMend;
  if (!judged) return [];
  const { hop } = judged;
  const spreadDb = ({ mainLossDb = 0, standbyLossDb = mainLossDb }: Coupler) => standbyLossDb - mainLossDb;
  const swaps = (name: string, ends: readonly HopEnd[]): QuickFix[] => {
    const edits = ends.flatMap((end) => {
      const block = endInText(model, hop.name, end.site.name);
      const arg = argument(factNamed(block?.fact.facts ?? [], "coupler"), "coupler");
      return block && arg && end.coupler?.name !== name ? [replaceArgument(block.file, arg, name)] : [];
    });
    if (edits.length < ends.length) return [];
    const at = ends.map(({ site }) => site.name).join(" and ");
    const title = `Take coupler ${name} at ${at} (changes the equipment)`;
    return [{ title, edits, rule: finding.rule, changesDecision: true }];
  };
  const greatest = Math.max(...hop.ends.map(({ coupler }) => (coupler ? spreadDb(coupler) : 0)));
  const others = couplersFor(model, judged)
    .filter((one) => spreadDb(one) < greatest)
    .sort((a, b) => spreadDb(a) - spreadDb(b))
    .flatMap(({ name }) => [hop.ends, [hop.ends[0]], [hop.ends[1]]].flatMap((ends) => swaps(name, ends)));
  return [...others.slice(0, 6), ...largerAntenna(toMend)];
}

export function removeCoupler(toMend: ToMend): readonly QuickFix[] {
  const { judged, model, finding } = toMend;
  const end = endOf(toMend);
  const block = judged && end && endInText(model, judged.hop.name, end.site.name);
  const fact = block && factNamed(block.fact.facts, standOf(toMend, end).couplerFact);
  const edit = block && fact && removeFact(model, block.file, fact);
  return edit
    ? [
        {
          title: `Remove the coupler at ${end.site.name} (changes the equipment)`,
          edits: [edit],
          rule: finding.rule,
          changesDecision: true,
        },
      ]
    : [];
}

function antennaFix(
  { model, finding }: ToMend,
  { hop }: JudgedHop,
  end: HopEnd,
  antenna: Antenna,
  fact = "antenna",
): QuickFix[] {
  const block = endInText(model, hop.name, end.site.name);
  const arg = argument(factNamed(block?.fact.facts ?? [], fact), "antenna");
  if (!block || !arg) return [];
  const { name, diameterM } = antenna;
  const size = diameterM === undefined ? "" : `, ${diameterM} m`;
  // One that can't bear the unit is no way out without a guide to it.
  const stand = antennasStated(end).find((one) => one.fact === fact);
  const needsGuide = stand && leadTo(hop, end, { ...stand, antenna }) === "piece to choose";
  const piece = needsGuide ? pieceEdit(model, hop, block) : undefined;
  return [
    {
      title: `Take antenna ${name}${piece ? ` with waveguide ${piece.words}` : ""} at ${end.site.name} (changes the equipment${size})`,
      edits: [replaceArgument(block.file, arg, name), ...(piece ? [piece.edit] : [])],
      rule: finding.rule,
      changesDecision: true,
    },
  ];
}

/** The end that a finding's address names. */
function endOf({ judged, finding }: ToMend): HopEnd | undefined {
  const site = finding.at.split(" / ")[1];
  return judged?.hop.ends.find((end) => end.site.name === site);
}

/** The antenna that a finding's address names by its own fact or by that of its coupler, else the first. */
function standOf({ finding }: ToMend, end: HopEnd): Stand {
  const fact = finding.at.split(" / ")[2]?.replace(/\.at$/, "");
  const stands = antennasStated(end);
  return stands.find((one) => one.fact === fact || one.couplerFact === fact) ?? stands[0]!;
}

function antennasFor(
  model: DesignModel,
  { hop }: JudgedHop,
  wanted: (antenna: Antenna) => boolean,
): Antenna[] {
  const frequencies = hop.ends.flatMap((end) => end.transmitFrequencyHz ?? []);
  return installable(model, "antenna").flatMap((name) => {
    const antenna = model.lookup.antenna(name);
    return antenna && covers(antenna.band, frequencies) && wanted(antenna) ? [antenna] : [];
  });
}

/** Of the catalogue, those of the usual kind first. */
export function couplersFor(model: DesignModel, { hop }: JudgedHop): Coupler[] {
  const facts = arrangementByName(hop.arrangement.name);
  if (facts === undefined) return [];
  const frequencies = hop.ends.flatMap((end) => end.transmitFrequencyHz ?? []);
  const suiting = installable(model, "coupler").flatMap((name) => {
    const coupler = model.lookup.coupler(name);
    return coupler?.kind && suits(coupler.kind, facts) && covers(coupler.band, frequencies) ? [coupler] : [];
  });
  const isUsual = ({ kind }: Coupler) => kind === facts.coupler;
  return [...suiting.filter(isUsual), ...suiting.filter((one) => !isUsual(one))];
}

/** Names of a kind without the templates. */
function installable(model: DesignModel, kind: "antenna" | "coupler"): readonly string[] {
  return model.names(kind).filter((name) => !model.declarations(`${kind} ${name}`)[0]?.template);
}

/** Equipment without a band stated is not proposed: nobody knows whether it suits. */
function covers(band: FrequencyRange | undefined, frequencies: readonly number[]): boolean {
  return band !== undefined && frequencies.every((hz) => band.fromHz <= hz && hz <= band.toHz);
}

function bySize(a: Antenna, b: Antenna): number {
  return (a.diameterM ?? 0) - (b.diameterM ?? 0);
}

function interleave<T>([first = [], second = []]: readonly (readonly T[])[]): T[] {
  return Array.from({ length: Math.max(first.length, second.length) }).flatMap((_, index) => [
    ...first.slice(index, index + 1),
    ...second.slice(index, index + 1),
  ]);
}
