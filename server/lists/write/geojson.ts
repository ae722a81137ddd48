/** GeoJSON (RFC 7946): longitude first on WGS 84, no `crs`, and lines over the antimeridian cut in two (section 3.1.9). */
import { steeringEscaped } from "../../../shared/format/steering.js";
import type { LatLon } from "../../../shared/geodesy/coordinates.js";
import type { List, ListRow } from "../../../shared/lists/subjects/list.js";

/** @param shows the time that figures are of; a foreign member (section 6.1) */
export function* geoJsonText(lists: readonly List[], shows?: string): Iterable<string> {
  const foreign = shows === undefined ? "" : `"shows":${steeringEscaped(JSON.stringify(shows))},`;
  yield `{"type":"FeatureCollection",${foreign}"features":[`;
  let first = true;
  for (const list of lists)
    for (const row of list.rows) {
      yield `${first ? "" : ","}\n${steeringEscaped(JSON.stringify(featureOf(list, row)))}`;
      first = false;
    }
  yield "\n]}\n";
}

function featureOf({ subject, columns }: List, { values, places }: ListRow) {
  const properties = Object.fromEntries(
    columns.flatMap(({ head }, i) => (values[i] === undefined ? [] : [[head, values[i]]])),
  );
  return {
    type: "Feature",
    id: `${subject.slice(0, -1)} ${values[0]}`,
    geometry: geometryOf(places),
    properties,
  };
}

function geometryOf(places: readonly LatLon[] | undefined) {
  const [from, to] = places ?? [];
  if (!from) return null;
  if (!to) return { type: "Point", coordinates: pair(from) };
  if (Math.abs(from.longitudeDeg - to.longitudeDeg) <= 180)
    return { type: "LineString", coordinates: [pair(from), pair(to)] };
  const edge = Math.sign(from.longitudeDeg) * 180;
  const toEdge = edge - from.longitudeDeg;
  const whole = to.longitudeDeg + 2 * edge - from.longitudeDeg;
  const latitudeDeg = from.latitudeDeg + (toEdge / whole) * (to.latitudeDeg - from.latitudeDeg);
  return {
    type: "MultiLineString",
    coordinates: [
      [pair(from), pair({ latitudeDeg, longitudeDeg: edge })],
      [pair({ latitudeDeg, longitudeDeg: -edge }), pair(to)],
    ],
  };
}

function pair({ latitudeDeg, longitudeDeg }: LatLon): [number, number] {
  return [Number(longitudeDeg.toFixed(9)), Number(latitudeDeg.toFixed(9))];
}
