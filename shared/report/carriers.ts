/** Carriers in words and tables, as page, hover and explanation all tell them. */
import type { Hop, HopEnd } from "../design/design.js";
import type {
  CarrierEnd,
  CarrierResult,
  CarrierUnit,
  LevelByMode,
} from "../evaluate/account/carrier-result.js";
import type { HopResult } from "../evaluate/account/result.js";
import { judgedMode, sameMode } from "../evaluate/level/judged-mode.js";
import { transmitPowerDbm } from "../evaluate/level/levels.js";
import { dbm, frequency } from "../format/numbers.js";
import { type Explanation, explanation } from "./explanation.js";
import type { Table } from "./level-diagram.js";

/** `main arm`; undefined: nothing joins it to another. */
export function armText({ arm }: Pick<CarrierUnit, "arm">): string | undefined {
  return arm === "none" ? undefined : `${arm} arm`;
}

/**
 * A figure of an end over its carriers: one where all have the same, else each with the carriers that have it.
 * @returns undefined where no carrier has it
 */
export function overCarriers(
  carriers: readonly CarrierResult[],
  at: 0 | 1,
  text: (end: CarrierEnd) => string | undefined,
): string | undefined {
  const by = Map.groupBy(carriers, ({ ends }) => text(ends[at]));
  if (by.size === 1) return [...by.keys()][0];
  return [...by]
    .map(([figure, those]) => `${figure ?? "–"} (${those.map(({ name }) => name).join(", ")})`)
    .join("; ");
}

/** The mode of most power, where it is not the highest. */
export function strongestMode({ modes }: Hop, end: HopEnd): string | undefined {
  const powered = modes.flatMap((mode) => {
    const powerDbm = transmitPowerDbm(end, mode);
    return powerDbm === undefined ? [] : { modulation: mode.modulation, powerDbm };
  });
  if (powered.length === 0) return undefined;
  const strongest = powered.reduceRight((best, one) => (one.powerDbm > best.powerDbm ? one : best));
  return strongest === powered.at(-1) ? undefined : strongest.modulation;
}

/** Whether carriers or units of a hop have to be told apart. */
export function severalUnits({ carriers }: Pick<HopResult, "carriers">): boolean {
  return (
    carriers.length > 1 || carriers.some(({ ends }) => ends.some(({ standby }) => standby !== undefined))
  );
}

/** One table a direction: what each carrier is, what is sent and what arrives. Empty where no frequency is known. */
export function carrierTables(hop: Hop, result: HopResult): Table[] {
  const { carriers } = result;
  return ([0, 1] as const).flatMap((at): Table[] => {
    if (carriers.every(({ ends }) => ends[at].transmitHz === undefined)) return [];
    const [from, to] = [hop.ends[at], hop.ends[1 - at]!];
    const modes = modesTold(hop, result, at);
    const arms = carriers.some(({ ends }) => ends.some(({ arm }) => arm !== "none"));
    const cells = (
      { polarization, ends }: CarrierResult,
      unit: CarrierUnit,
      received: LevelByMode | undefined,
    ): string[] => [
      unit.branch,
      ends[at].transmitHz === undefined ? "not stated" : frequency(ends[at].transmitHz),
      polarization ?? "not stated",
      ...(arms ? [armText(unit) ?? ""] : []),
      ...modes.map(({ of }) => level(unit.eirp, of)),
      ...(arms ? [received ? (armText(ends[(1 - at) as 0 | 1]) ?? "") : ""] : []),
      ...modes.filter(({ of }) => of !== "greatestDbm").map(({ of }) => level(received, of)),
    ];
    const right = (title: string) => ({ title, align: "right" }) as const;
    const left = (title: string) => ({ title, align: "left" }) as const;
    return [
      {
        title: `Carriers from ${from.site.name} to ${to.site.name}`,
        columns: [
          left("Unit"),
          right("Transmits"),
          left("Polarization"),
          ...(arms ? [left(`At ${from.site.name}`)] : []),
          ...modes.map(({ of, words }) => right(of === "greatestDbm" ? words : `EIRP, ${words}`)),
          ...(arms ? [left(`At ${to.site.name}`)] : []),
          ...modes.flatMap(({ of, words }) => (of === "greatestDbm" ? [] : right(`Received, ${words}`))),
        ],
        rows: carriers.flatMap((carrier) => {
          const { standby } = carrier.ends[at];
          const own = cells(carrier, carrier.ends[at], carrier.ends[(1 - at) as 0 | 1].received);
          return standby
            ? [own, cells(carrier, { ...standby, branch: `${standby.branch}, muted` }, undefined)]
            : [own];
        }),
      },
    ];
  });
}

/** What a licence is for, at each end of each carrier, and what it comes from. */
export function explainCarriers({ carriers, directions }: HopResult): Explanation[] {
  return carriers.flatMap((carrier) =>
    carrier.ends.flatMap((end): Explanation[] => {
      if (end.licensedEirpDbm === undefined) return [];
      const direction = directions.find(({ from }) => from === end.site);
      const which = carriers.length > 1 ? `, ${carrier.name}` : "";
      const steps = [
        ["frequency", end.transmitHz === undefined ? undefined : frequency(end.transmitHz)],
        ["polarization", carrier.polarization],
        ["way out", armText(end)],
        ["EIRP in the judged mode", shown(end.eirp?.judgedDbm, direction?.judged?.modulation)],
        ["EIRP in the highest mode", shown(end.eirp?.highestDbm, direction?.modes.at(-1)?.modulation)],
        ["EIRP in the mode of greatest power", shown(end.eirp?.greatestDbm)],
        ["the same of the standby unit", shown(end.standby?.eirp?.greatestDbm)],
        ["its way out", end.standby && armText(end.standby)],
      ] as const;
      return [
        explanation(`EIRP to license at ${end.site}${which}`, dbm(end.licensedEirpDbm), {
          steps: steps.flatMap(([name, value]) => (value === undefined ? [] : [{ name, value }])),
        }),
      ];
    }),
  );
}

function shown(levelDbm: number | undefined, modulation?: string): string | undefined {
  if (levelDbm === undefined) return undefined;
  return modulation === undefined ? dbm(levelDbm) : `${dbm(levelDbm)}, ${modulation}`;
}

type ModeTold = { readonly of: keyof LevelByMode; readonly words: string };

/** The judged mode, the highest where it is another, and the greatest of any. */
function modesTold(hop: Hop, { directions }: HopResult, at: 0 | 1): ModeTold[] {
  const from = hop.ends[at];
  const direction = directions.find((one) => one.from === from.site.name);
  const highest = hop.modes.findLast((mode) => transmitPowerDbm(from, mode) !== undefined);
  if (direction === undefined || highest === undefined) return [];
  const judged = judgedMode(hop, direction.modes);
  const by = strongestMode(hop, from);
  const same = judged === undefined || sameMode(judged, highest);
  return [
    ...(same ? [] : [{ of: "judgedDbm", words: `${judged.modulation}, judged` } as const]),
    { of: "highestDbm", words: `${highest.modulation}${same ? "" : ", highest"}` },
    { of: "greatestDbm", words: `Greatest EIRP${by === undefined ? "" : ` (${by})`}, licensed` },
  ];
}

function level(levels: LevelByMode | undefined, of: keyof LevelByMode): string {
  const found = levels?.[of];
  return found === undefined ? "–" : dbm(found);
}
