/** KML (OGC 12-007r2, KML 2.3, which keeps the namespace of 2.2): a folder a list, a placemark a row, its figures as data. */
import type { List, ListRow } from "../../../shared/lists/subjects/list.js";
import { escaped } from "../../../shared/report/document/markup.js";

/** @param shows the time that figures are of */
export function* kmlText(title: string, lists: readonly List[], shows?: string): Iterable<string> {
  yield `<?xml version="1.0" encoding="UTF-8"?>
<kml xmlns="http://www.opengis.net/kml/2.2">
<Document>
<name>${escaped(title)}</name>
${shows === undefined ? "" : `<description>${escaped(`Figures are those ${shows}.`)}</description>\n`}`;
  for (const list of lists) {
    yield `<Folder>\n<name>${list.subject}</name>\n`;
    for (const row of list.rows) yield placemark(list, row);
    yield "</Folder>\n";
  }
  yield "</Document>\n</kml>\n";
}

function placemark({ columns }: List, { values, places }: ListRow): string {
  const data = columns.flatMap(({ head }, i) =>
    values[i] === undefined
      ? []
      : [`<Data name="${escaped(head)}"><value>${escaped(String(values[i]))}</value></Data>`],
  );
  return `<Placemark>
<name>${escaped(String(values[0]))}</name>
<ExtendedData>
${data.join("\n")}
</ExtendedData>
${geometry(places)}</Placemark>
`;
}

/** Heights are left to the ground: a structure's top is not what the line stands for. */
function geometry(places: ListRow["places"]): string {
  if (!places) return "";
  const coordinates = places
    .map(
      ({ latitudeDeg, longitudeDeg }) =>
        `${Number(longitudeDeg.toFixed(9))},${Number(latitudeDeg.toFixed(9))}`,
    )
    .join(" ");
  return places.length === 1
    ? `<Point><coordinates>${coordinates}</coordinates></Point>\n`
    : `<LineString><tessellate>1</tessellate><coordinates>${coordinates}</coordinates></LineString>\n`;
}
