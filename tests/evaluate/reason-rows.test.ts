/**
 * Bounds of reason against the rows of the language: the core cannot import them, so what a new property would be
 * forgotten in is named here. A figure that a row puts into a hop has a bound, and none within the row's limits is left out.
 */
import { describe, expect, test } from "vitest";
import { alternatives, PROPERTIES } from "../../language/schema/index.js";
import type { Entries, Things } from "../../language/schema/into.js";
import type { ArgSpec } from "../../language/schema/types.js";
import type { Hop } from "../../shared/design/design.js";
import { withinReason } from "../../shared/evaluate/reason.js";
import { findUnit } from "../../shared/units/units.js";
import { HOP, judge, PREAMBLE } from "../language/editor/judged.js";
import { fixture } from "../support/fixture.js";

/** Figures that are compared at most, and in no formula. */
const NOT_COMPUTED_WITH: readonly string[] = [
  "radio.powerControlRangeDb",
  "antenna.band.fromHz",
  "antenna.band.toHz",
  "antenna.frontToBackDb",
  "coupler.band.fromHz",
  "coupler.band.toHz",
  "coupler.isolationDb",
  "coupler.weightKg",
];

/** Of things and entries that a hop's figures rest on, how one of them is put into a hop. */
const PUT: { readonly [T in keyof (Things & Entries)]?: (hop: Hop, part: object) => Hop } = {
  site: (hop, part) => atFirst(hop, { site: { ...hop.ends[0].site, ...part } }),
  end: (hop, part) => atFirst(hop, part),
  hop: (hop, part) => ({ ...hop, ...part }),
  radio: (hop, part) => ({ ...hop, radio: { ...hop.radio!, ...part } }),
  antenna: (hop, part) => atFirst(hop, { antenna: { ...hop.ends[0].antenna!, ...part } }),
  gain: (hop, part) =>
    atFirst(hop, { antenna: { ...hop.ends[0].antenna!, gain: [{ gainDbi: 38, ...part }] } }),
  coupler: (hop, part) => atFirst(hop, { coupler: { name: "C", ...part } }),
  loss: (hop, part) => atFirst(hop, { feeder: { name: "F", loss: [{ lossDbPerM: 1, ...part }] } }),
  mode: (hop, part) => ({ ...hop, modes: [{ ...hop.modes[0]!, ...part }] }),
  climate: (hop, part) => ({ ...hop, climate: { ...hop.climate, ...part } }),
  objective: (hop, part) => ({ ...hop, objective: { name: "O", clearance: [], ...part } }),
  criterion: (hop, part) => ({
    ...hop,
    objective: { name: "O", clearance: [{ fresnelFraction: 1, kFactor: 1.33, ...part }] },
  }),
};

function atFirst(hop: Hop, part: object): Hop {
  return { ...hop, ends: [{ ...hop.ends[0], ...part }, hop.ends[1]] };
}

/** Things that parts lists, sites and racks are made of, and no hop's figures. */
const NOT_OF_A_HOP: ReadonlySet<string> = new Set([
  "equipment",
  "unit",
  "mount",
  "feeder",
  "line",
  "cable",
  "chassis",
  "card",
  "network",
  "installation",
  "rssi",
  "claim",
  "port",
  "need",
  "pattern",
  "interference",
  "interferenceAt",
  "spectrum",
  "spectrumPoint",
  "carrierToInterference",
  "traffic",
  "demand",
  "licence",
  "asBuilt",
  "licenceTerms",
]);

const figures = PROPERTIES.flatMap(({ args }) =>
  args.flatMap((arg) =>
    alternatives(arg).flatMap((spec) =>
      spec.type === "quantity" || spec.type === "number"
        ? placesOf(arg).map((place) => ({ place, limits: limitsOf(spec) }))
        : [],
    ),
  ),
);

function placesOf({ into }: ArgSpec): readonly string[] {
  return into === undefined ? [] : typeof into === "string" ? [into] : into;
}

function limitsOf(spec: { readonly min?: string | number; readonly max?: string | number }): number[] {
  return [spec.min, spec.max].flatMap((limit) => {
    if (limit === undefined) return [];
    const [number, unit] = String(limit).split(" ");
    return unit === undefined ? Number(number) : findUnit(unit)!.unit.toBase(Number(number));
  });
}

/** `site.structure.heightM` of 3 as `{ structure: { kind: "mast", heightM: 3 } }`. */
function partOf([field, inner]: readonly string[], value: number, whole: object): object {
  return inner === undefined ? { [field!]: value } : { [field!]: { ...whole, [inner]: value } };
}

/** The rest of a field that is stated as a whole. */
const REST: Readonly<Record<string, object>> = {
  structure: { kind: "mast", heightM: 30 },
  tuning: { fromHz: 17e9, toHz: 19e9 },
  lowHalf: { fromHz: 17e9, toHz: 19e9 },
  highHalf: { fromHz: 17e9, toHz: 19e9 },
  availabilityClass: { portion: "access" },
  quality: { portion: "access" },
  measuredRain: { attenuation001Db: 20, frequencyHz: 18e9 },
};

const base = (() => {
  const { model } = fixture(`${PREAMBLE}\n${HOP}`);
  judge(model);
  return model.hop("KELD-TARN")!.hop!;
})();

const ofHops = figures.filter(({ place }) => !NOT_OF_A_HOP.has(place.split(".")[0]!));

test("every thing that rows fill is either of a hop or named as none", () => {
  expect(withinReason(base).beyond).toEqual([]);
  for (const { place } of ofHops) expect(Object.keys(PUT), place).toContain(place.split(".")[0]);
});

describe.each(ofHops)("$place", ({ place, limits }) => {
  const [thing, ...path] = place.split(".");
  const put = PUT[thing as keyof typeof PUT]!;
  const believed = (value: number) => withinReason(put(base, partOf(path, value, REST[path[0]!] ?? {})));
  const beyond = (value: number) => believed(value).beyond;

  test("beyond all reason it is left out", () => {
    if (NOT_COMPUTED_WITH.includes(place)) expect(beyond(1e300)).toEqual([]);
    else expect(beyond(1e300)).toHaveLength(1);
    expect(JSON.stringify(believed(1e300).hop).includes("1e+300")).toBe(NOT_COMPUTED_WITH.includes(place));
  });

  test("within its row's limits it is not", () => {
    for (const limit of limits) expect(beyond(limit), String(limit)).toEqual([]);
  });
});
