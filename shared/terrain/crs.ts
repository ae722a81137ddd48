import { CRS_ROWS, type CrsRow } from "./crs.data.js";

/** A coordinate reference system in which a raster's coordinates are meant. */
export interface Crs {
  /** "EPSG:2056", or what the file calls it. */
  readonly name: string;
  /** Coordinates are degrees of longitude (x) and latitude (y) on WGS 84 or taken for it. */
  readonly degrees: boolean;
  /** PROJ string or WKT of a projected system; undefined where `degrees`. */
  readonly definition: string | undefined;
  /** Horizontal accuracy against WGS 84, metres; 0 = exact by definition, undefined = not known. */
  readonly accuracyM: number | undefined;
}

/** Zones of UTM that EPSG numbers in rows: first code, first zone, number of zones, datum. */
const UTM_ROWS = [
  { first: 32601, zone: 1, count: 60, south: false, datum: "+datum=WGS84", name: "WGS 84", accuracyM: 0 },
  { first: 32701, zone: 1, count: 60, south: true, datum: "+datum=WGS84", name: "WGS 84", accuracyM: 0 },
  {
    first: 25828,
    zone: 28,
    count: 11,
    south: false,
    datum: "+ellps=GRS80 +towgs84=0,0,0,0,0,0,0",
    name: "ETRS89",
    accuracyM: 1,
  },
  {
    first: 26901,
    zone: 1,
    count: 23,
    south: false,
    datum: "+ellps=GRS80 +towgs84=0,0,0,0,0,0,0",
    name: "NAD83",
    accuracyM: 2,
  },
  {
    first: 28348,
    zone: 48,
    count: 11,
    south: true,
    datum: "+ellps=GRS80 +towgs84=0,0,0,0,0,0,0",
    name: "GDA94",
    accuracyM: 2,
  },
  {
    first: 7846,
    zone: 46,
    count: 14,
    south: true,
    datum: "+ellps=GRS80 +towgs84=0,0,0,0,0,0,0",
    name: "GDA2020",
    accuracyM: 1,
  },
] as const;

/**
 * The system of an EPSG code, or undefined when the code is not among those known (see `knownCrsSummary`).
 * Codes that name latitude first (4326, 3035) are meant here as rasters store them: x east, y north.
 */
export function crsOfEpsg(code: number): Crs | undefined {
  const row: CrsRow | undefined = CRS_ROWS.find((r) => r.code === code);
  if (row) {
    const degrees = row.definition === "degrees";
    return {
      name: `EPSG:${code}`,
      degrees,
      definition: degrees ? undefined : row.definition,
      accuracyM: row.accuracyM,
    };
  }
  const utm = UTM_ROWS.find((r) => code >= r.first && code < r.first + r.count);
  if (!utm) return undefined;
  const zone = utm.zone + code - utm.first;
  const definition = `+proj=utm +zone=${zone}${utm.south ? " +south" : ""} ${utm.datum} +units=m +no_defs`;
  return { name: `EPSG:${code}`, degrees: false, definition, accuracyM: utm.accuracyM };
}

/** One line for messages: which codes can be read. */
export function knownCrsSummary(): string {
  return `known are the UTM zones (326xx, 327xx, 258xx, 269xx, 283xx, 78xx) and ${CRS_ROWS.map((r) => r.code).join(", ")}`;
}

/** Datum names in WKT (letters and digits only, lower case, without a leading "d") and their shift to WGS 84. */
const DATUMS: readonly {
  readonly name: RegExp;
  readonly shift: string | undefined;
  readonly accuracyM: number;
}[] = [
  { name: /^(wgs1984|worldgeodeticsystem1984(ensemble)?)$/, shift: undefined, accuracyM: 0 },
  {
    name: /^(etrs1989|europeanterrestrialreferencesystem1989(ensemble)?|rgf1993|reseaugeodesiquefrancais1993|sweref99)$/,
    shift: undefined,
    accuracyM: 1,
  },
  {
    name: /^(northamerican1983|nad83canadianspatialreferencesystem|gda1994|geocentricdatumofaustralia1994|gda2020|nzgd2000|newzealandgeodeticdatum2000)$/,
    shift: undefined,
    accuracyM: 2,
  },
  { name: /^ch1903\+?$/, shift: "674.374,15.056,405.346,0,0,0,0", accuracyM: 1.5 },
  {
    name: /^(osgb1936|ordnancesurveyofgreatbritain1936)$/,
    shift: "446.448,-125.157,542.06,0.15,0.247,0.842,-20.489",
    accuracyM: 2,
  },
  {
    name: /^(deutscheshauptdreiecksnetz|dhdn)$/,
    shift: "598.1,73.7,418.2,0.202,0.045,-2.455,6.7",
    accuracyM: 3,
  },
  {
    name: /^(mgi|militargeographischeinstitut(e)?|militargeographischesinstitut)$/,
    shift: "577.326,90.129,463.919,5.137,1.474,5.297,2.4232",
    accuracyM: 1.5,
  },
];

/**
 * The system described by a WKT 1 text (the content of a .prj file).
 * @throws Error when it is no WKT 1, or stands on a datum whose shift to WGS 84 is not known: taking such a datum
 * for WGS 84 would move the raster by up to some hundred metres
 */
export function crsOfWkt(text: string): Crs {
  const wkt = text.trim();
  const outer = /^(PROJCS|GEOGCS)\s*\[\s*"([^"]*)"/i.exec(wkt);
  if (!outer) throw new Error("is no WKT of a geographic or projected system (PROJCS or GEOGCS)");
  const epsg = /AUTHORITY\s*\[\s*"EPSG"\s*,\s*"(\d+)"\s*\]\s*\]\s*$/i.exec(wkt);
  const known = epsg ? crsOfEpsg(Number(epsg[1])) : undefined;
  if (known) return known;
  const datumName = /DATUM\s*\[\s*"([^"]*)"/i.exec(wkt)?.[1] ?? "";
  const plain = datumName
    .toLowerCase()
    .replace(/^d_/, "")
    .replace(/[^a-z0-9+]/g, "");
  const datum = DATUMS.find((d) => d.name.test(plain));
  const hasShift = /TOWGS84\s*\[/i.test(wkt);
  if (!datum && !hasShift)
    throw new Error(`stands on the datum "${datumName}", whose shift to WGS 84 is not known`);
  const degrees = outer[1]!.toUpperCase() === "GEOGCS" && !datum?.shift && !hasShift;
  const definition =
    hasShift || !datum?.shift ? wkt : wkt.replace(/(SPHEROID\s*\[[^\]]*\])/i, `$1,TOWGS84[${datum.shift}]`);
  return {
    name: outer[2]!,
    degrees,
    definition: degrees ? undefined : definition,
    accuracyM: datum?.accuracyM,
  };
}
