/** What is written down at line-up beside the levels; what the design states as built stands there already. */
import { builtFigures } from "../../as-built/differences.js";
import { type BranchPlace, unitPlaces } from "../../as-built/expected.js";
import type { Serial } from "../../design/as-built.js";
import type { Hop, Polarization } from "../../design/design.js";
import type { HopResult } from "../../evaluate/account/result.js";
import { fixed } from "../../format/numbers.js";
import type { FormField, Section } from "../document/document.js";
import type { HopSheetInput } from "./hop-facts.js";
import { hasBothPolarizations, receiverWords } from "./level-words.js";
import type { SheetWords } from "./words/sheet-words.js";

export function fieldsSection({ hop, result, words }: HopSheetInput): Section {
  const { lineUp } = words;
  const names = lineUp.fieldNames;
  return {
    id: "fields",
    title: lineUp.fields,
    blocks: [
      {
        type: "form",
        fields: [
          { label: names.readOn },
          { label: names.readBy },
          { label: names.instrument },
          { label: names.weather },
          { label: names.powerControlOff, value: "☐" },
          ...([0, 1] as const).flatMap((at) => fieldsOfEnd(hop, result, at, words)),
          { label: names.remarks, wide: true },
        ],
      },
      {
        type: "paragraph",
        text: lineUp.back
          .split("`")
          .map((part, at) => (at % 2 ? { text: part, mark: "code" as const } : part)),
      },
    ],
  };
}

/** A serial number for each unit that the arrangement hangs there. */
function fieldsOfEnd(hop: Hop, { geometry }: HopResult, at: 0 | 1, words: SheetWords): FormField[] {
  const { figure, lineUp } = words;
  const part = words.acceptance.serialOf;
  const names = lineUp.fieldNames;
  const end = hop.ends[at];
  const site = end.site.name;
  const built = end.asBuilt === undefined ? [] : builtFigures(end, end.asBuilt, geometry?.[at].azimuthDeg);
  const measured = (label: string, unit: string, fact: (typeof built)[number]["fact"], digits: number) => {
    const found = built.find((one) => one.fact === fact)?.built;
    return { label, unit, ...(found !== undefined && { value: figure(fixed(found, digits)) }) };
  };
  const serial = (what: string, numbers: readonly Serial[]): FormField => ({
    label: names.serialOf(what, site),
    ...(numbers.length > 0 && { value: numbers.map(({ number }) => number).join(", ") }),
  });
  const of = (what: Serial["of"]) => (end.asBuilt?.serials ?? []).filter((one) => one.of === what);
  const units = unitPlaces(hop, end);
  const several = new Set(units.map(({ carrier }) => carrier)).size > 1;
  return [
    measured(names.azimuthBuilt(site), "°", "azimuth", 2),
    measured(names.heightBuilt(site), "m", "height", 1),
    ...(end.diversityAntenna === undefined
      ? []
      : [measured(names.diversityHeightBuilt(site), "m", "diversity-height", 1)]),
    ...sendersRead(hop, units).map((sender) => ({
      label: names.discrimination(site, words.polarizations[sender]),
      unit: "dB",
    })),
    ...units.map((unit) =>
      serial(
        units.length === 1 ? part.unit : `${part.unit} ${receiverWords(placed(unit), several, words)}`,
        of("unit").filter((one) => isOf(one, unit, units)),
      ),
    ),
    serial(part.antenna, of("antenna")),
    ...(end.diversityAntenna === undefined
      ? []
      : [serial(part["diversity-antenna"], of("diversity-antenna"))]),
    ...(end.coupler === undefined ? [] : [serial(part.coupler, of("coupler"))]),
  ];
}

/** Polarizations of which one sender is on while the receivers of both are read. */
function sendersRead(hop: Hop, units: readonly BranchPlace[]): readonly Polarization[] {
  if (!hasBothPolarizations(hop)) return [];
  return [...new Set(units.flatMap(({ polarization }) => polarization ?? []))];
}

function placed({ role, carrier, polarization }: BranchPlace) {
  return { branch: role, carrier, ...(polarization && { polarization }) };
}

/** A number that names no branch is of the main unit, one that names no carrier of the first. */
function isOf(
  { branch = "main", carrier = 1 }: Serial,
  unit: BranchPlace,
  all: readonly BranchPlace[],
): boolean {
  return all.length === 1 || (branch === unit.role && carrier === unit.carrier);
}
