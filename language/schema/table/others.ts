/** Lists of others' transmissions: a file, and what each of its columns is. */
import { OTHERS_FIELDS, OTHERS_KEYS } from "../../../shared/others/columns.js";
import { UNITS } from "../../../shared/units/units.js";
import type { ArgSpec, Property } from "../types.js";
import { one, PRACTICE, phrase, type Rows, text } from "./values.js";

const EXAMPLES: Readonly<Record<string, string>> = {
  latitude: 'latitude "tx_lat"',
  frequency: 'frequency "frequency" in MHz',
  status: 'status "licence_status" stands "A"',
};

export const othersRows: Rows = [
  {
    name: "others",
    in: ["network", "file"],
    args: [
      {
        name: "file",
        value: { type: "path" },
        meaning: "CSV with a line of heads, relative to this file; a row a transmission.",
      },
    ],
    block: "others",
    repeatable: true,
    meaning:
      "Transmissions of others, from a register: they interfere and are interfered with, and are never changed. A row needs a position, a frequency, a bandwidth and an EIRP (or power and gain); with the place of its receiver it is judged too. Rows that cannot be read are told, and the rest counts.",
    fallback: "no others",
    source: PRACTICE,
    example: 'others "register.csv" {',
  },
  {
    name: "epsg",
    in: ["others"],
    args: one(
      "code",
      { type: "number", integer: true, min: 1024, max: 32767 },
      "Of the system of its eastings and northings.",
    ),
    meaning: "Projected system of the list.",
    fallback: "its positions are latitudes and longitudes",
    source: PRACTICE,
    example: "epsg 25832",
  },
  ...OTHERS_KEYS.map((key): Property => {
    const { called, figure, angle, meaning } = OTHERS_FIELDS[key];
    const column: ArgSpec = { name: "column", value: text, meaning: "Head of the column." };
    const rest: ArgSpec[] = [];
    if (figure) {
      const units = UNITS[figure.dimension].map(({ symbol }) => symbol);
      rest.push({
        name: "unit",
        label: "in",
        optional: true,
        value: phrase(units, (unit) => `its figures are in ${unit}`),
        meaning: "Unit of its figures.",
        fallback: `that of the head, else ${figure.usual}`,
      });
    }
    if (angle)
      for (const part of ["minutes", "seconds", "hemisphere"])
        rest.push({
          name: part,
          label: part,
          optional: true,
          value: text,
          meaning: `Head of the column with the ${part}.`,
          fallback: "all of the angle stands in one column",
        });
    if (key === "status")
      rest.push({
        name: "stands",
        label: "stands",
        value: text,
        meaning: "What stands in rows that count, in any letter case.",
      });
    return {
      name: key,
      in: ["others"],
      args: [column, ...rest],
      meaning: `Column of the ${called}. ${meaning}`,
      fallback: "the list has none",
      source: PRACTICE,
      example: EXAMPLES[key] ?? `${key} "${key.replaceAll("-", "_")}"`,
    };
  }),
];
