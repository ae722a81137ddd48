/** KML (OGC 2.3): placemarks with a point or a line, and the data that they carry. */
import type { Cell, Sheet } from "../../../shared/lists/table.js";
import { LONGEST_CELL, UnfitList } from "./bounds.js";
import { type Coordinates, type Feature, sheetsOf } from "./features.js";
import { readXml } from "./xml.js";
import { ZipParts } from "./zip-parts.js";

/** The first document of the archive (KML 2.3, annex on KMZ). @throws UnfitList */
export function readKmz(name: string, bytes: Uint8Array): Sheet[] {
  const parts = new ZipParts(bytes);
  const document = parts.names.find((one) => /\.kml$/i.test(one));
  const content = document === undefined ? undefined : parts.read(document);
  if (!content) throw new UnfitList("it holds no .kml document");
  return readKml(name, new TextDecoder().decode(content), "KMZ, WGS 84");
}

const SHAPES: ReadonlySet<string> = new Set([
  "Point",
  "LineString",
  "Polygon",
  "LinearRing",
  "Track",
  "Model",
]);

/** @throws UnfitList */
export function readKml(name: string, text: string, how = "KML, WGS 84"): Sheet[] {
  const features: Feature[] = [];
  const links = { count: 0 };
  let placemark:
    | { shapes: { shape: string; points: readonly Coordinates[] }[]; properties: Map<string, Cell> }
    | undefined;
  let [gathered, key, place, count] = ["", "", [] as string[], 0];
  let root: string | undefined;
  readXml(text, {
    open: (element, attributes) => {
      root ??= element;
      place.push(element);
      gathered = "";
      if (element === "Placemark") placemark = { shapes: [], properties: new Map() };
      else if (element === "NetworkLink") links.count++;
      else if (SHAPES.has(element)) placemark?.shapes.push({ shape: element, points: [] });
      if (element === "Data" || element === "SimpleData") key = attributes.name ?? "";
    },
    text: (piece) => {
      if (gathered.length <= 100 * LONGEST_CELL) gathered += piece;
    },
    close: (element) => {
      place.pop();
      if (placemark) {
        const parent = place.at(-1);
        if (element === "coordinates") {
          const shape = placemark.shapes.at(-1);
          if (shape) placemark.shapes[placemark.shapes.length - 1] = { ...shape, points: pointsOf(gathered) };
        } else if (element === "name" && parent === "Placemark") placemark.properties.set("name", gathered);
        else if ((element === "value" && parent === "Data") || element === "SimpleData")
          placemark.properties.set(key, gathered.slice(0, LONGEST_CELL));
        else if (element === "Placemark") {
          count++;
          const shapes =
            placemark.shapes.length === 0
              ? [{ shape: "placemark without a geometry", points: [] }]
              : placemark.shapes;
          for (const { shape, points } of shapes)
            features.push({ line: count, shape, points, properties: placemark.properties });
          placemark = undefined;
        }
      }
      gathered = "";
    },
  });
  if (root !== "kml") throw new UnfitList(`it is no KML: it begins with <${root ?? ""}>`);
  const notes = links.count > 0 ? [`${links.count} links to other documents are not followed`] : [];
  return sheetsOf(name, how, features, notes);
}

function pointsOf(text: string): Coordinates[] {
  return text
    .trim()
    .split(/\s+/)
    .filter((tuple) => tuple !== "")
    .map((tuple) => tuple.split(",").map((part) => (part === "" ? Number.NaN : Number(part))));
}
