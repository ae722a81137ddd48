/**
 * The coordinate reference systems that rasters may stand in, besides the UTM zones computed in `crs.ts`.
 * Definitions: EPSG's parameters as PROJ 9.1.1 prints them (projinfo -o PROJ). Accuracies of the national
 * datum shifts are those stated for the EPSG operation named; better ones need a grid file, which is not shipped.
 */
export interface CrsRow {
  readonly code: number;
  readonly name: string;
  /** PROJ string; "degrees" where coordinates are latitude and longitude taken for WGS 84 as they are. */
  readonly definition: string;
  /** Horizontal accuracy against WGS 84 in metres. */
  readonly accuracyM: number;
  /** Where the accuracy comes from. */
  readonly accuracyFrom: string;
}

const WORLD = "the datum itself, taken for WGS 84";
const PLATE =
  "a datum fixed to a plate, taken for WGS 84: apart by plate motion since its epoch (from memory)";
const ETRS = "+ellps=GRS80 +towgs84=0,0,0,0,0,0,0 +units=m +no_defs";
const DHDN = "+ellps=bessel +towgs84=598.1,73.7,418.2,0.202,0.045,-2.455,6.7 +units=m +no_defs";
const DHDN_FROM = "EPSG:1777 (western Germany; worse in the east)";
const MGI = "+ellps=bessel +towgs84=577.326,90.129,463.919,5.137,1.474,5.297,2.4232 +units=m +no_defs";
const CH = "+ellps=bessel +towgs84=674.374,15.056,405.346,0,0,0,0 +units=m +no_defs";

export const CRS_ROWS: readonly CrsRow[] = [
  { code: 4326, name: "WGS 84", definition: "degrees", accuracyM: 0, accuracyFrom: WORLD },
  { code: 4258, name: "ETRS89", definition: "degrees", accuracyM: 1, accuracyFrom: PLATE },
  { code: 4269, name: "NAD83", definition: "degrees", accuracyM: 2, accuracyFrom: PLATE },
  { code: 4171, name: "RGF93", definition: "degrees", accuracyM: 1, accuracyFrom: PLATE },
  { code: 4283, name: "GDA94", definition: "degrees", accuracyM: 2, accuracyFrom: PLATE },
  { code: 7844, name: "GDA2020", definition: "degrees", accuracyM: 1, accuracyFrom: PLATE },
  { code: 4167, name: "NZGD2000", definition: "degrees", accuracyM: 2, accuracyFrom: PLATE },
  { code: 6668, name: "JGD2011", definition: "degrees", accuracyM: 1, accuracyFrom: PLATE },
  {
    code: 3857,
    name: "WGS 84 / Pseudo-Mercator",
    definition:
      "+proj=merc +a=6378137 +b=6378137 +lat_ts=0 +lon_0=0 +x_0=0 +y_0=0 +k=1 +units=m +nadgrids=@null +no_defs",
    accuracyM: 0,
    accuracyFrom: WORLD,
  },
  {
    code: 3395,
    name: "WGS 84 / World Mercator",
    definition: "+proj=merc +lon_0=0 +k=1 +x_0=0 +y_0=0 +datum=WGS84 +units=m +no_defs",
    accuracyM: 0,
    accuracyFrom: WORLD,
  },
  {
    code: 3413,
    name: "WGS 84 / NSIDC Sea Ice Polar Stereographic North",
    definition: "+proj=stere +lat_0=90 +lat_ts=70 +lon_0=-45 +x_0=0 +y_0=0 +datum=WGS84 +units=m +no_defs",
    accuracyM: 0,
    accuracyFrom: WORLD,
  },
  {
    code: 3031,
    name: "WGS 84 / Antarctic Polar Stereographic",
    definition: "+proj=stere +lat_0=-90 +lat_ts=-71 +lon_0=0 +x_0=0 +y_0=0 +datum=WGS84 +units=m +no_defs",
    accuracyM: 0,
    accuracyFrom: WORLD,
  },
  {
    code: 3035,
    name: "ETRS89 / LAEA Europe",
    definition: `+proj=laea +lat_0=52 +lon_0=10 +x_0=4321000 +y_0=3210000 ${ETRS}`,
    accuracyM: 1,
    accuracyFrom: PLATE,
  },
  {
    code: 3034,
    name: "ETRS89 / LCC Europe",
    definition: `+proj=lcc +lat_0=52 +lon_0=10 +lat_1=35 +lat_2=65 +x_0=4000000 +y_0=2800000 ${ETRS}`,
    accuracyM: 1,
    accuracyFrom: PLATE,
  },
  {
    code: 2154,
    name: "RGF93 / Lambert-93",
    definition: `+proj=lcc +lat_0=46.5 +lon_0=3 +lat_1=49 +lat_2=44 +x_0=700000 +y_0=6600000 ${ETRS}`,
    accuracyM: 1,
    accuracyFrom: PLATE,
  },
  {
    code: 2180,
    name: "ETRF2000-PL / CS92",
    definition: `+proj=tmerc +lat_0=0 +lon_0=19 +k=0.9993 +x_0=500000 +y_0=-5300000 ${ETRS}`,
    accuracyM: 1,
    accuracyFrom: PLATE,
  },
  {
    code: 3006,
    name: "SWEREF99 TM",
    definition: `+proj=utm +zone=33 ${ETRS}`,
    accuracyM: 1,
    accuracyFrom: PLATE,
  },
  {
    code: 3057,
    name: "ISN93 / Lambert 1993",
    definition: `+proj=lcc +lat_0=65 +lon_0=-19 +lat_1=64.25 +lat_2=65.75 +x_0=500000 +y_0=500000 ${ETRS}`,
    accuracyM: 1,
    accuracyFrom: PLATE,
  },
  {
    code: 3059,
    name: "LKS92 / Latvia TM",
    definition: `+proj=tmerc +lat_0=0 +lon_0=24 +k=0.9996 +x_0=500000 +y_0=-6000000 ${ETRS}`,
    accuracyM: 1,
    accuracyFrom: PLATE,
  },
  {
    code: 3067,
    name: "ETRS89 / TM35FIN",
    definition: `+proj=utm +zone=35 ${ETRS}`,
    accuracyM: 1,
    accuracyFrom: PLATE,
  },
  {
    code: 3301,
    name: "Estonian Coordinate System of 1997",
    definition: `+proj=lcc +lat_0=57.5175539305556 +lon_0=24 +lat_1=59.3333333333333 +lat_2=58 +x_0=500000 +y_0=6375000 ${ETRS}`,
    accuracyM: 1,
    accuracyFrom: PLATE,
  },
  {
    code: 3346,
    name: "LKS94 / Lithuania TM",
    definition: `+proj=tmerc +lat_0=0 +lon_0=24 +k=0.9998 +x_0=500000 +y_0=0 ${ETRS}`,
    accuracyM: 1,
    accuracyFrom: PLATE,
  },
  {
    code: 3763,
    name: "ETRS89 / Portugal TM06",
    definition: `+proj=tmerc +lat_0=39.6682583333333 +lon_0=-8.13310833333333 +k=1 +x_0=0 +y_0=0 ${ETRS}`,
    accuracyM: 1,
    accuracyFrom: PLATE,
  },
  {
    code: 3765,
    name: "HTRS96 / Croatia TM",
    definition: `+proj=tmerc +lat_0=0 +lon_0=16.5 +k=0.9999 +x_0=500000 +y_0=0 ${ETRS}`,
    accuracyM: 1,
    accuracyFrom: PLATE,
  },
  {
    code: 3794,
    name: "Slovenia 1996 / Slovene National Grid",
    definition: `+proj=tmerc +lat_0=0 +lon_0=15 +k=0.9999 +x_0=500000 +y_0=-5000000 ${ETRS}`,
    accuracyM: 1,
    accuracyFrom: PLATE,
  },
  {
    code: 4839,
    name: "ETRS89 / LCC Germany (N-E)",
    definition: `+proj=lcc +lat_0=51 +lon_0=10.5 +lat_1=48.6666666666667 +lat_2=53.6666666666667 +x_0=0 +y_0=0 ${ETRS}`,
    accuracyM: 1,
    accuracyFrom: PLATE,
  },
  {
    code: 2193,
    name: "NZGD2000 / New Zealand Transverse Mercator",
    definition: `+proj=tmerc +lat_0=0 +lon_0=173 +k=0.9996 +x_0=1600000 +y_0=10000000 ${ETRS}`,
    accuracyM: 2,
    accuracyFrom: PLATE,
  },
  {
    code: 3577,
    name: "GDA94 / Australian Albers",
    definition: `+proj=aea +lat_0=0 +lon_0=132 +lat_1=-18 +lat_2=-36 +x_0=0 +y_0=0 ${ETRS}`,
    accuracyM: 2,
    accuracyFrom: PLATE,
  },
  {
    code: 3979,
    name: "NAD83(CSRS) / Canada Atlas Lambert",
    definition: `+proj=lcc +lat_0=49 +lon_0=-95 +lat_1=49 +lat_2=77 +x_0=0 +y_0=0 ${ETRS}`,
    accuracyM: 2,
    accuracyFrom: PLATE,
  },
  {
    code: 5070,
    name: "NAD83 / Conus Albers",
    definition: `+proj=aea +lat_0=23 +lon_0=-96 +lat_1=29.5 +lat_2=45.5 +x_0=0 +y_0=0 ${ETRS}`,
    accuracyM: 2,
    accuracyFrom: PLATE,
  },
  {
    code: 2056,
    name: "CH1903+ / LV95",
    definition: `+proj=somerc +lat_0=46.9524055555556 +lon_0=7.43958333333333 +k_0=1 +x_0=2600000 +y_0=1200000 ${CH}`,
    accuracyM: 1,
    accuracyFrom: "EPSG:1676",
  },
  {
    code: 21781,
    name: "CH1903 / LV03",
    definition: `+proj=somerc +lat_0=46.9524055555556 +lon_0=7.43958333333333 +k_0=1 +x_0=600000 +y_0=200000 ${CH}`,
    accuracyM: 1.5,
    accuracyFrom: "EPSG:1766",
  },
  {
    code: 27700,
    name: "OSGB36 / British National Grid",
    definition:
      "+proj=tmerc +lat_0=49 +lon_0=-2 +k=0.9996012717 +x_0=400000 +y_0=-100000 +ellps=airy +towgs84=446.448,-125.157,542.06,0.15,0.247,0.842,-20.489 +units=m +no_defs",
    accuracyM: 2,
    accuracyFrom: "EPSG:1314, no grid; errors up to 5 m are reported (from memory)",
  },
  {
    code: 31466,
    name: "DHDN / 3-degree Gauss-Kruger zone 2",
    definition: `+proj=tmerc +lat_0=0 +lon_0=6 +k=1 +x_0=2500000 +y_0=0 ${DHDN}`,
    accuracyM: 3,
    accuracyFrom: DHDN_FROM,
  },
  {
    code: 31467,
    name: "DHDN / 3-degree Gauss-Kruger zone 3",
    definition: `+proj=tmerc +lat_0=0 +lon_0=9 +k=1 +x_0=3500000 +y_0=0 ${DHDN}`,
    accuracyM: 3,
    accuracyFrom: DHDN_FROM,
  },
  {
    code: 31468,
    name: "DHDN / 3-degree Gauss-Kruger zone 4",
    definition: `+proj=tmerc +lat_0=0 +lon_0=12 +k=1 +x_0=4500000 +y_0=0 ${DHDN}`,
    accuracyM: 3,
    accuracyFrom: DHDN_FROM,
  },
  {
    code: 31469,
    name: "DHDN / 3-degree Gauss-Kruger zone 5",
    definition: `+proj=tmerc +lat_0=0 +lon_0=15 +k=1 +x_0=5500000 +y_0=0 ${DHDN}`,
    accuracyM: 3,
    accuracyFrom: DHDN_FROM,
  },
  {
    code: 31287,
    name: "MGI / Austria Lambert",
    definition: `+proj=lcc +lat_0=47.5 +lon_0=13.3333333333333 +lat_1=49 +lat_2=46 +x_0=400000 +y_0=400000 ${MGI}`,
    accuracyM: 1.5,
    accuracyFrom: "EPSG:1618",
  },
  {
    code: 2100,
    name: "GGRS87 / Greek Grid",
    definition:
      "+proj=tmerc +lat_0=0 +lon_0=24 +k=0.9996 +x_0=500000 +y_0=0 +ellps=GRS80 +towgs84=-199.87,74.79,246.62,0,0,0,0 +units=m +no_defs",
    accuracyM: 1,
    accuracyFrom: "EPSG:1272",
  },
];
