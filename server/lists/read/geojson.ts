/** GeoJSON (RFC 7946): longitude and latitude on WGS 84, whatever an old file may say in a `crs` member. */
import type { Cell, Sheet } from "../../../shared/lists/table.js";
import { UnfitList } from "./bounds.js";
import { type Coordinates, type Feature, sheetsOf } from "./features.js";

interface Json {
  readonly [key: string]: unknown;
}

/** @throws UnfitList where it is no GeoJSON */
export function readGeoJson(name: string, text: string): Sheet[] {
  let root: unknown;
  try {
    root = JSON.parse(text.replace(/^\uFEFF/, ""));
  } catch (error) {
    throw new UnfitList(`it is no JSON: ${error instanceof Error ? error.message : String(error)}`);
  }
  const notes: string[] = [];
  const { type, features, crs } = object(root);
  const list =
    type === "FeatureCollection" && Array.isArray(features)
      ? features
      : type === "Feature"
        ? [root]
        : undefined;
  if (!list) throw new UnfitList("it is no GeoJSON of features");
  if (crs !== undefined)
    notes.push(
      `it names the coordinate system ${JSON.stringify(object(object(crs).properties).name ?? crs).slice(0, 60)}; GeoJSON has WGS 84 alone (RFC 7946 section 4), and so it is read`,
    );
  return sheetsOf(name, "GeoJSON, WGS 84", list.map(featureOf), notes);
}

const NAMES = ["name", "site", "hop", "id"];

function featureOf(json: unknown, index: number): Feature {
  const { geometry, properties, id } = object(json);
  const { type, coordinates } = object(geometry);
  const cells = new Map<string, Cell>();
  for (const [key, value] of Object.entries(object(properties))) cells.set(key, cellOf(value));
  if (id !== undefined && !NAMES.some((name) => cells.has(name))) cells.set("id", cellOf(id));
  const shape = typeof type === "string" ? type : "feature without a geometry";
  const points = shape === "Point" ? [coordinates] : Array.isArray(coordinates) ? coordinates : [];
  return { line: index + 1, shape, points: points.map(pointOf), properties: cells };
}

function pointOf(point: unknown): Coordinates {
  return Array.isArray(point) ? point.map((value) => (typeof value === "number" ? value : Number.NaN)) : [];
}

function cellOf(value: unknown): Cell {
  if (value === null || value === undefined) return undefined;
  return typeof value === "string" || typeof value === "number" || typeof value === "boolean"
    ? value
    : JSON.stringify(value).slice(0, 200);
}

function object(json: unknown): Json {
  return typeof json === "object" && json !== null && !Array.isArray(json) ? (json as Json) : {};
}
