/** GPX 1.1: waypoints are sites, routes from one point to another hops; tracks are where somebody went. */
import type { Cell, Sheet } from "../../../shared/lists/table.js";
import { LONGEST_CELL, UnfitList } from "./bounds.js";
import { type Coordinates, type Feature, sheetsOf } from "./features.js";
import { readXml } from "./xml.js";

const TAKEN: Readonly<Record<string, string>> = { name: "name", desc: "description", ele: "elevation_m" };

/** @throws UnfitList */
export function readGpx(name: string, text: string): Sheet[] {
  const features: Feature[] = [];
  let [gathered, tracks] = ["", 0];
  const place: string[] = [];
  let properties = new Map<string, Cell>();
  let route: Coordinates[] = [];
  let at: Coordinates = [];
  let root: string | undefined;
  readXml(text, {
    open: (element, { lat, lon }) => {
      root ??= element;
      place.push(element);
      gathered = "";
      if (element === "wpt" || element === "rte") properties = new Map();
      if (element === "rte") route = [];
      if (element === "wpt" || element === "rtept") at = [Number(lon), Number(lat)];
      if (element === "rtept") route.push(at);
      if (element === "trk") tracks++;
    },
    text: (piece) => {
      if (gathered.length <= LONGEST_CELL) gathered += piece;
    },
    close: (element) => {
      place.pop();
      const parent = place.at(-1);
      const key = TAKEN[element];
      if (key !== undefined && (parent === "wpt" || (parent === "rte" && element !== "ele")))
        properties.set(key, gathered);
      if (element === "wpt")
        features.push({ line: features.length + 1, shape: "Point", points: [at], properties });
      if (element === "rte")
        features.push({ line: features.length + 1, shape: "LineString", points: route, properties });
      gathered = "";
    },
  });
  if (root !== "gpx") throw new UnfitList(`it is no GPX: it begins with <${root ?? ""}>`);
  return sheetsOf(name, "GPX, WGS 84", features, tracks > 0 ? [`${tracks} tracks are not taken`] : []);
}
