import { geoJsonText } from "../../lists/write/geojson.js";
import type { ListFormat } from "./format.js";

export const listGeoJson: ListFormat = {
  name: "geojson",
  what: "sites, hops and ends for a map (RFC 7946)",
  map: true,
  print: ({ lists, shows }) => geoJsonText(lists, shows),
};
