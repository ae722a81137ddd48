/** The sheets of a file, by what its bytes are and, where they do not say it, by its ending. */
import type { Sheet } from "../../../shared/lists/table.js";
import { UnfitList } from "./bounds.js";
import { readCsv } from "./csv.js";
import { decode } from "./decode.js";
import { readGeoJson } from "./geojson.js";
import { readGpx } from "./gpx.js";
import { readKml, readKmz } from "./kml.js";
import { readXlsx } from "./xlsx.js";

/** What has to be unpacked or parsed as a whole, and is done in a thread of its own. */
export function isStructured(bytes: Uint8Array): boolean {
  return isZip(bytes) || /^[<{]/.test(begins(bytes));
}

/** @param name as messages call the file @throws UnfitList with one clause that says why it is not read */
export function readSheets(name: string, bytes: Uint8Array): Sheet[] {
  if (isZip(bytes)) return /\.kmz$/i.test(name) ? readKmz(name, bytes) : readXlsx(name, bytes);
  if (bytes[0] === 0xd0 && bytes[1] === 0xcf && bytes[2] === 0x11 && bytes[3] === 0xe0)
    throw new UnfitList(
      "it is a workbook of the old kind (.xls), or one with a password; save it as .xlsx or CSV",
    );
  const first = begins(bytes);
  if (first.startsWith("{")) return readGeoJson(name, decode(bytes).text);
  if (!first.startsWith("<")) return [readCsv(name, bytes)];
  const { text } = decode(bytes);
  if (/<(?:\w+:)?gpx[\s>]/.test(text.slice(0, 4_000))) return readGpx(name, text);
  if (/<(?:\w+:)?kml[\s>]/.test(text.slice(0, 4_000))) return readKml(name, text);
  throw new UnfitList("it is neither KML nor GPX; save tables as CSV or XLSX");
}

function isZip(bytes: Uint8Array): boolean {
  return bytes[0] === 0x50 && bytes[1] === 0x4b && (bytes[2] === 3 || bytes[2] === 5);
}

function begins(bytes: Uint8Array): string {
  return decode(bytes.subarray(0, 400))
    .text.replace(/^\uFEFF/, "")
    .trimStart();
}
