/** Lists and patterns for designs in tests, from texts instead of files. */
import { parse } from "csv-parse/sync";
import type { Design } from "../../shared/design/design.js";
import type { OthersList } from "../../shared/design/interference.js";
import type { ListedFiles } from "../../shared/others/listed.js";
import { type OthersRead, OthersReading } from "../../shared/others/reading.js";

/** Near the sites that the examples of rules are about; all invented. */
const REGISTER = `lat,lon,frequency,emission,eirp,rx_lat,rx_lon
47.52,-30.45,18715,27M5D7W,60,,
47.61,-30.31,18770,55M0D7W,62.5,,
47.6,-30.3,17920,55M0D7W,-60,47.45,-30.6
`;

/** What the examples of rules name: `register.csv`, and no pattern. */
export function exampleFiles(design: Design): ListedFiles {
  const antennas = [...design.hops.values()].flatMap(({ ends }) =>
    ends.flatMap(({ antenna }) => antenna ?? []),
  );
  return {
    logos: new Map(
      (design.sheets ?? []).flatMap(({ logo }) =>
        logo === undefined ? [] : [[logo.file, { unusable: "there is no such file or folder" }]],
      ),
    ),
    others: new Map((design.others ?? []).map((list) => [list, readText(list, REGISTER)])),
    patterns: new Map(
      antennas.flatMap(({ patternFile }) =>
        patternFile === undefined ? [] : [[patternFile, { unusable: "there is no such file or folder" }]],
      ),
    ),
  };
}

/** As the host reads it, in one go. */
export function readText(list: OthersList, text: string, delimiter = ","): OthersRead {
  const [heads = [], ...rows] = parse(text, {
    bom: true,
    delimiter,
    relax_column_count: true,
    relax_quotes: true,
  }) as string[][];
  const reading = new OthersReading(list, heads);
  for (const [index, cells] of rows.entries()) reading.take(index + 2, cells);
  return reading.finish();
}
