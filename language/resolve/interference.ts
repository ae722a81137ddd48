/** What is stated of interference: spectra of modes, power control, the network's terms, lists of others. */
import { nth } from "../../shared/design/address.js";
import type { Radio, RadioMode } from "../../shared/design/catalogue.js";
import type {
  CouplingLoss,
  InterferenceAtSite,
  InterferenceTerms,
  ModeSpectrum,
  OthersColumn,
  OthersKey,
  OthersList,
  PowerControl,
  SpectrumPoint,
} from "../../shared/design/interference.js";
import { OTHERS_KEYS } from "../../shared/others/columns.js";
import { argument, type Fact, factNamed, factsNamed, numberOf, quantityOf, wordOf } from "../facts/fact.js";
import { resolvePath } from "../model/path.js";
import type { Declaration } from "../model/source-file.js";
import { entriesOf, fieldsOf, type Names } from "./fields.js";
import type { Lookup } from "./lookup.js";
import { unlessEmpty } from "./stated.js";

/** Modes with what the spectra of their radio say of them; list by list, the nearest block counts, of two alike the first. */
export function withSpectra(modes: readonly RadioMode[], facts: readonly Fact[], names: Names): RadioMode[] {
  const spectra = factsNamed(facts, "spectrum")
    .map((fact) => ({
      widthHz: quantityOf(fact, "bandwidth"),
      modulation: wordOf(fact, "modulation"),
      stated: spectrumOf(fact, names),
    }))
    .reverse()
    .toSorted((a, b) => nearness(a) - nearness(b));
  if (spectra.length === 0) return [...modes];
  return modes.map((mode) => {
    const stated = spectra.filter((one) => isOf(mode, one)).map((one) => one.stated);
    return stated.length === 0 ? mode : { ...mode, spectrum: Object.assign({}, ...stated) as ModeSpectrum };
  });
}

interface Target {
  readonly widthHz?: number;
  readonly modulation?: string;
}

function nearness({ widthHz, modulation }: Target): number {
  return (widthHz === undefined ? 0 : 1) + (modulation === undefined ? 0 : 2);
}

export function isOf(mode: Pick<RadioMode, "bandwidthHz" | "modulation">, target: Target): boolean {
  const { widthHz = mode.bandwidthHz, modulation = mode.modulation } = target;
  return Math.abs(mode.bandwidthHz - widthHz) < 1000 && mode.modulation === modulation;
}

/** Without what it does not state, so that what a wider block states stays. */
function spectrumOf({ facts }: Fact, names: Names): ModeSpectrum {
  const mask = entriesOf("spectrumPoint", facts, "mask", names);
  const selectivity = entriesOf("spectrumPoint", facts, "selectivity", names);
  const ratios = entriesOf("carrierToInterference", facts, "carrier-to-interference", names);
  const { rollOff } = fieldsOf("spectrum", facts, names);
  const isOutOfOrder = [mask, selectivity, ratios].some((points) => !ascends(points.map((p) => p.offsetHz)));
  return {
    ...(rollOff !== undefined && { rollOff }),
    ...(mask.length > 0 && { transmitMask: byOffset(mask) }),
    ...(selectivity.length > 0 && { selectivity: byOffset(selectivity) }),
    ...(ratios.length > 0 && {
      carrierToInterference: ratios.toSorted((a, b) => a.offsetHz - b.offsetHz),
    }),
    ...(isOutOfOrder && { outOfOrder: true as const }),
  };
}

export function ascends(values: readonly number[]): boolean {
  return values.every((value, i) => i === 0 || value >= values[i - 1]!);
}

/** A step rises outwards. */
function byOffset(points: readonly SpectrumPoint[]): readonly SpectrumPoint[] {
  return points.toSorted((a, b) => a.offsetHz - b.offsetHz || a.attenuationDb - b.attenuationDb);
}

/** @param hop of the hop, with the defaults of hops behind what it states itself */
export function powerControlOf(
  end: readonly Fact[],
  defaults: readonly Fact[],
  hop: readonly Fact[],
  radio: Radio | undefined,
): PowerControl | undefined {
  const [fact] = [end, hop, defaults].flatMap((facts) => factNamed(facts, "power-control") ?? []);
  const use = argument(fact, "use")?.value;
  if (use?.type === "quantity") return { reductionDb: use.base };
  if (use?.type !== "word") return undefined;
  return { reductionDb: use.word === "no" ? 0 : radio?.powerControlRangeDb };
}

export function interferenceOf(facts: readonly Fact[], names: Names): InterferenceTerms | undefined {
  return unlessEmpty(fieldsOf("interference", facts, names));
}

export function interferenceAtSiteOf(facts: readonly Fact[], names: Names): InterferenceAtSite | undefined {
  const betweenHops = factsNamed(facts, "coupling-loss").flatMap((fact): CouplingLoss[] => {
    const hop = wordOf(fact, "hop");
    const other = wordOf(fact, "other");
    const lossDb = quantityOf(fact, "loss");
    return hop === undefined || other === undefined || lossDb === undefined
      ? []
      : [{ hops: [hop, other], lossDb }];
  });
  const toOthers = factsNamed(facts, "coupling-loss-others").flatMap((fact): CouplingLoss[] => {
    const hop = wordOf(fact, "hop");
    const lossDb = quantityOf(fact, "loss");
    return hop === undefined || lossDb === undefined ? [] : [{ hops: [hop], lossDb }];
  });
  const couplingLosses = [...betweenHops, ...toOthers];
  return unlessEmpty({
    ...fieldsOf("interferenceAt", facts, names),
    ...(couplingLosses.length > 0 && { couplingLosses }),
  });
}

const KEYS: ReadonlySet<string> = new Set(OTHERS_KEYS);

/** @returns undefined where the file is not named, or lies where nothing is read */
export function othersOf({ fact, file: from }: Declaration, index: number): OthersList | undefined {
  const written = wordOf(fact, "file");
  const file = written === undefined ? undefined : resolvePath(from, written);
  if (file === undefined) return undefined;
  return {
    at: nth("others", index),
    file,
    columns: fact.facts.flatMap((column): OthersColumn[] => {
      const head = wordOf(column, "column");
      if (head === undefined || !KEYS.has(column.property.name)) return [];
      return [
        {
          key: column.property.name as OthersKey,
          head,
          unit: wordOf(column, "unit"),
          minutes: wordOf(column, "minutes"),
          seconds: wordOf(column, "seconds"),
          hemisphere: wordOf(column, "hemisphere"),
        },
      ];
    }),
    epsg: numberOf(factNamed(fact.facts, "epsg"), "code"),
    stands: wordOf(factNamed(fact.facts, "status"), "stands"),
  };
}

/** A path counts from the file that names it, which of an inherited fact is that of another entry. */
export function patternFileOf(
  entry: Declaration,
  facts: readonly Fact[],
  lookup: Pick<Lookup, "declaration">,
): string | undefined {
  const fact = factNamed(facts, "pattern-file");
  const written = wordOf(fact, "file");
  if (fact === undefined || written === undefined) return undefined;
  for (let at: Declaration | undefined = entry; at; ) {
    if (at.fact.facts.includes(fact)) return resolvePath(at.file, written);
    const like: string | undefined = wordOf(at.fact, "like");
    at = like === undefined ? undefined : lookup.declaration(`${at.kind} ${like}`);
  }
  return undefined;
}
