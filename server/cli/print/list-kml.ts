import { kmlText } from "../../lists/write/kml.js";
import type { ListFormat } from "./format.js";

export const listKml: ListFormat = {
  name: "kml",
  what: "sites, hops and ends for a globe (KML 2.2)",
  map: true,
  print: ({ lists, title, shows }) => kmlText(title ?? "Network", lists, shows),
};
