import { existsSync, mkdirSync, symlinkSync, utimesSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { gzipSync } from "node:zlib";
import { zipSync } from "fflate";
import { describe, expect, it } from "vitest";
import { openTerrain } from "../../server/terrain/store.js";
import { encodeHgt } from "./encode-hgt.js";
import { openRaster, temporaryFolder } from "./support.js";
import { type TiffSpec, tiff, WGS84_POINT } from "./tiff.js";

const folder = temporaryFolder();
let folders = 0;

/** Writes files into a folder of their own and opens it. */
async function storeOf(files: Record<string, Uint8Array | string>, options: { cacheBytes?: number } = {}) {
  const baseDir = join(folder, String(folders++));
  for (const [name, bytes] of Object.entries(files)) {
    const path = join(baseDir, "terrain", name);
    mkdirSync(dirname(path), { recursive: true });
    writeFileSync(path, bytes);
  }
  return { baseDir, store: await openTerrain(["terrain"], { ...options, baseDir }) };
}

const at = (latitudeDeg: number, longitudeDeg: number) => ({ latitudeDeg, longitudeDeg });

/** A plane that both tiles and both seams agree on; whole metres at the samples used. */
const plane = (lat: number, lon: number) => Math.round(1200 * (lat - 40) + 2400 * (lon - 10));
const HGT = encodeHgt({ southDeg: 40, westDeg: 10 }, 1201, plane);
const HGT_EAST = encodeHgt({ southDeg: 40, westDeg: 11 }, 1201, plane);

const GRID: TiffSpec = {
  width: 4,
  height: 3,
  values: [10, 20, 30, 40, 110, 120, 130, 140, 210, 220, -32768, 240],
  scale: [0.1, 0.1],
  tie: [5, 50],
  keys: WGS84_POINT,
  noData: "-32768",
};

/** A key that no list has, and its value in a tag (34736) that is not there. */
function tiffWithoutKeyValue(): Uint8Array {
  const bytes = Buffer.from(tiff({ ...GRID, keys: [...WGS84_POINT, [9999, 2]] }));
  bytes.writeUInt16LE(34736, bytes.indexOf(Buffer.of(0x0f, 0x27)) + 2);
  return new Uint8Array(bytes);
}

/** An archive whose directory names the tile east of the one that is in it. */
function zipRenamed(tile: Uint8Array): Uint8Array {
  const archive = Buffer.from(zipSync({ "N40E010.hgt": tile }));
  archive.write("N40E011.hgt", archive.lastIndexOf("N40E010.hgt"));
  return new Uint8Array(archive);
}

describe("SRTM tiles", () => {
  for (const [name, bytes] of [
    ["N40E010.hgt", HGT],
    ["n40e010.HGT", HGT],
    ["deep/er/N40E010.hgt.gz", gzipSync(HGT)],
    ["N40E010.hgt.zip", zipSync({ "N40E010.hgt": HGT })],
    ["any.zip", zipSync({ "readme.txt": new Uint8Array(5), "folder/N40E010.hgt": HGT })],
  ] as const) {
    it(`${name} gives the heights written into it`, async () => {
      const { store } = await storeOf({ [name]: bytes });
      expect(store.problems).toEqual([]);
      expect(store.heightAtSync(at(40.5, 10.5))).toBe("loading");
      expect(await store.heightAt(at(40.5, 10.5))).toBeCloseTo(1800, 6);
      expect(store.heightAtSync(at(40.5, 10.5))).toBeCloseTo(1800, 6);
      // Half way between two columns (2 m a column) and a quarter between two rows (1 m a row).
      expect(await store.heightAt(at(40.5 + 0.25 / 1200, 10.5 + 0.5 / 1200))).toBeCloseTo(1801.25, 6);
      expect(await store.heightAt(at(41, 11))).toBe(3600);
      expect(await store.heightAt(at(41.0001, 10.5))).toBeUndefined();
    });
  }

  it("of a plain tile of 1 arc second reads the rows that are asked for, of a packed one all, with the same heights", async () => {
    const fine = encodeHgt({ southDeg: 40, westDeg: 10 }, 3601, (lat, lon) =>
      Math.round(1500 + 1400 * Math.sin(lat * 40) * Math.cos(lon * 30)),
    );
    const plain = (await storeOf({ "N40E010.hgt": fine })).store;
    const packed = (await storeOf({ "N40E010.hgt.gz": gzipSync(fine, { level: 1 }) })).store;
    expect(await plain.heightAt(at(40.5, 10.5))).toBe(await packed.heightAt(at(40.5, 10.5)));
    expect(packed.stats().cacheBytes).toBe(fine.length);
    expect(plain.stats().cacheBytes).toBeLessThan(fine.length / 8);
    // From north to south over every seam between what is read at once, and along one.
    for (const [from, to] of [
      [at(40.9999, 10.2), at(40.0001, 10.3)],
      [at(41, 10), at(40, 11)],
      [at(41 - 436 / 3600, 10.1), at(41 - 436 / 3600, 10.9)],
    ] as const)
      expect((await plain.profile(from, to)).heightM).toEqual((await packed.profile(from, to)).heightM);
    expect(plain.problems).toEqual([]);
  });

  it("goes over the seam of two tiles without a gap", async () => {
    const { store } = await storeOf({ "N40E010.hgt": HGT, "N40E011.hgt": HGT_EAST });
    const profile = await store.profile(at(40.2, 10.9), at(40.3, 11.1));
    expect(profile.gaps).toEqual([]);
    expect(profile.sources.map((s) => s.file)).toEqual(["terrain/N40E010.hgt", "terrain/N40E011.hgt"]);
    expect(profile.sources.reduce((sum, s) => sum + s.sharePercent, 0)).toBeCloseTo(100, 9);
    // A sample every 30 m at most, also where the columns stand 90 m apart.
    expect(profile.stepM).toBeLessThanOrEqual(30);
    expect(profile.stepM).toBeGreaterThan(29.9);
    expect(profile.heightM[0]).toBeCloseTo(2400, 6);
    expect(profile.heightM.at(-1)).toBeCloseTo(3000, 6);
    expect(store.stats()).toMatchObject({ tilesRead: 2, cacheBytes: 2 * 2884802 });
  });

  it("says where a tile is missing and where it is void, and takes neither for sea level", async () => {
    const voids = encodeHgt({ southDeg: 40, westDeg: 10 }, 1201, (lat, lon) =>
      lon > 10.4 && lon < 10.5 ? undefined : plane(lat, lon),
    );
    const { store } = await storeOf({ "N40E010.hgt": voids });
    const profile = await store.profile(at(40.5, 10.3), at(40.5, 11.3), { stepM: 100 });
    expect(profile.gaps.map((g) => g.reason)).toEqual(["void", "uncovered"]);
    profile.heightM.forEach((h, i) => {
      const d = profile.distanceM[i]!;
      const inGap = profile.gaps.some((g) => d >= g.fromM && d <= g.toM);
      expect(Number.isNaN(h)).toBe(inGap);
    });
    const nothing = await store.profile(at(0, 0), at(0, 0.1));
    expect(nothing.gaps).toEqual([{ fromM: 0, toM: expect.closeTo(11131.9, 1), reason: "uncovered" }]);
    expect(nothing.sources).toEqual([]);
    expect(nothing.stepM).toBeLessThanOrEqual(90);
  });

  it("fills voids of a fine raster from a coarser one, and says so", async () => {
    const coarse = {
      ...GRID,
      tie: [10, 41] as const,
      scale: [0.5, 0.5] as const,
      width: 3,
      values: Array(9).fill(77),
    };
    const holed = encodeHgt({ southDeg: 40, westDeg: 10 }, 1201, (_lat, lon) => (lon > 10.4 ? undefined : 5));
    const { store } = await storeOf({ "N40E010.hgt": holed, "coarse.tif": tiff(coarse) });
    const profile = await store.profile(at(40.5, 10.3), at(40.5, 10.6));
    expect(profile.gaps).toEqual([]);
    expect(profile.sources.map((s) => s.file)).toEqual(["terrain/N40E010.hgt", "terrain/coarse.tif"]);
    expect([profile.heightM[0], profile.heightM.at(-1)]).toEqual([5, 77]);
  });
});

describe("GeoTIFF", () => {
  /** Row 1, column 1 of GRID is 120, right of it 130, below it 220; pixel is point. */
  const cases: Record<string, { spec: TiffSpec; heightM?: number; place?: [number, number] }> = {
    "pixel is point": { spec: GRID },
    "pixel is area: half a pixel on": {
      spec: {
        ...GRID,
        keys: [
          [1024, 2],
          [1025, 1],
          [2048, 4326],
        ],
        tie: [4.95, 50.05],
      },
    },
    "no raster type key means area": {
      spec: {
        ...GRID,
        keys: [
          [1024, 2],
          [2048, 4326],
        ],
        tie: [4.95, 50.05],
      },
    },
    "big-endian": { spec: { ...GRID, bigEndian: true } },
    "deflate in strips, predictor 2": { spec: { ...GRID, deflate: true, predictor: 2, rowsPerStrip: 2 } },
    "deflate in strips, predictor 2, big-endian": {
      spec: { ...GRID, deflate: true, predictor: 2, rowsPerStrip: 2, bigEndian: true },
    },
    "LZW in tiles, predictor 2": { spec: { ...GRID, lzw: true, predictor: 2, tile: 16 } },
    "tiles, predictor 2, big-endian": {
      spec: { ...GRID, deflate: true, predictor: 2, tile: 16, bigEndian: true },
    },
    "LZW in strips": { spec: { ...GRID, lzw: true, rowsPerStrip: 3 } },
    PackBits: { spec: { ...GRID, packBits: true, rowsPerStrip: 3 } },
    BigTIFF: { spec: { ...GRID, bigTiff: true, rowsPerStrip: 3 } },
    "BigTIFF in tiles, big-endian": { spec: { ...GRID, bigTiff: true, tile: 16, bigEndian: true } },
    "floating point predictor": {
      spec: { ...GRID, type: "float32", deflate: true, predictor: 3, rowsPerStrip: 2 },
    },
    "floating point predictor, tiles, big-endian": {
      spec: { ...GRID, type: "float32", lzw: true, predictor: 3, tile: 16, bigEndian: true },
    },
    "32-bit floats, nodata NaN": {
      spec: {
        ...GRID,
        type: "float32",
        values: Float32Array.from(GRID.values, (v) => (v === -32768 ? NaN : v)),
        noData: "nan",
      },
    },
    "32-bit floats, lowest float as a rounded text": {
      spec: {
        ...GRID,
        type: "float32",
        values: Float32Array.from(GRID.values, (v) => (v === -32768 ? -3.4028234663852886e38 : v)),
        noData: "-3.40282346638529e+38",
      },
    },
    "unsigned, nodata 65535": {
      spec: {
        ...GRID,
        type: "uint16",
        values: Array.from(GRID.values, (v) => (v === -32768 ? 65535 : v)),
        noData: "65535",
      },
    },
    "scale and offset": {
      spec: {
        ...GRID,
        values: Array.from(GRID.values, (v) => (v === -32768 ? v : (v - 100) * 10)),
        metadata:
          '<GDALMetadata><Item name="OFFSET" sample="0" role="offset">100</Item><Item name="SCALE" sample="0" role="scale">0.1</Item></GDALMetadata>',
      },
    },
    "heights in feet": { spec: { ...GRID, keys: [...WGS84_POINT, [4099, 9002]] }, heightM: 120 * 0.3048 },
    "south-up": {
      spec: {
        ...GRID,
        scale: undefined,
        tie: undefined,
        transformation: [0.1, 0, 0, 5, 0, 0.1, 0, 49.8, 0, 0, 0, 0, 0, 0, 0, 1],
      },
    },
    "rotated by a quarter turn": {
      spec: {
        ...GRID,
        scale: undefined,
        tie: undefined,
        // Columns run north, rows run east.
        transformation: [0, 0.1, 0, 5, 0.1, 0, 0, 49.8, 0, 0, 0, 0, 0, 0, 0, 1],
      },
    },
    projected: {
      spec: {
        ...GRID,
        keys: [
          [1024, 1],
          [1025, 2],
          [3072, 32631],
        ],
        scale: [1000, 1000],
        tie: [500_000, 5_500_000],
      },
      // 1 km east and south of the tie point: the place of column 1, row 1, by cs2cs of PROJ 9.1.1.
      place: [49.643547491, 3.013851269],
    },
  };
  for (const [name, { spec, heightM = 120, place = [49.9, 5.1] as [number, number] }] of Object.entries(
    cases,
  )) {
    it(name, async () => {
      const { store } = await storeOf({ "grid.tif": tiff(spec) });
      expect(store.problems).toEqual([]);
      expect(await store.heightAt(at(place[0], place[1]))).toBeCloseTo(heightM, 3);
      expect(store.problems).toEqual([]);
    });
  }

  it("keeps voids void in every encoding", async () => {
    for (const { spec } of Object.values(cases)) {
      const { baseDir } = await storeOf({ "grid.tif": tiff(spec) });
      const { raster, implausible } = await openRaster(join(baseDir, "terrain/grid.tif"));
      const voids = [...raster.heightsM].map((h) => Number.isNaN(h) || h === -32768);
      expect(voids.map((v, i) => (v ? i : -1)).filter((i) => i >= 0)).toEqual([10]);
      expect(implausible).toBe(0);
    }
  });

  it("takes a height below any land for void where no nodata is declared, and says so", async () => {
    const { store } = await storeOf({ "grid.tif": tiff({ ...GRID, noData: undefined }) });
    expect(await store.heightAt(at(49.8, 5.2))).toBeUndefined();
    expect(store.problems).toEqual([
      {
        file: "terrain/grid.tif",
        message:
          "holds values that no land has (below -500 m, above 9000 m), taken as void; those that mean no height are to be declared in the file",
        reservation: true,
      },
    ]);
  });

  it("takes the floor of the sea, and a second value for no height, for void although another one is declared", async () => {
    for (const [first, isLand] of [
      [-500, true],
      [-501, false],
      [-9999, false],
      [9000, true],
      [9001, false],
    ] as const) {
      const values = Int16Array.from(GRID.values as Int16Array);
      values[0] = first;
      const { store } = await storeOf({ "grid.tif": tiff({ ...GRID, values }) });
      expect(await store.heightAt(at(50, 5))).toBe(isLand ? first : undefined);
      expect(store.problems).toHaveLength(isLand ? 0 : 1);
    }
  });

  it("refuses heights whose scale, offset or unit it cannot read", async () => {
    const item = (name: string, text: string) =>
      `<GDALMetadata><Item name="${name}" sample="0" role="${name.toLowerCase()}">${text}</Item></GDALMetadata>`;
    for (const [metadata, why] of [
      [item("SCALE", "0x2"), 'states "0x2" as the SCALE of its heights; correct its metadata'],
      [item("SCALE", "0"), 'states "0" as the SCALE of its heights; correct its metadata'],
      [item("OFFSET", "a"), 'states "a" as the OFFSET of its heights; correct its metadata'],
      [item("UNITTYPE", "fathom"), 'heights are in the unit "fathom"; write it anew in metres'],
    ] as const) {
      const { store } = await storeOf({ "grid.tif": tiff({ ...GRID, metadata }) });
      expect(await store.heightAt(at(49.8, 5.2))).toBeUndefined();
      expect(store.problems.map(({ message }) => message)).toEqual([why]);
    }
    const { store } = await storeOf({ "grid.tif": tiff({ ...GRID, metadata: item("UNITTYPE", "metre") }) });
    expect(store.problems).toEqual([]);
  });

  it("reads a large raster in pages, seams included", async () => {
    const width = 5000;
    const height = 3300;
    const values = new Int16Array(width * height);
    for (let i = 0; i < values.length; i++) values[i] = (i % width) / 4 + Math.floor(i / width) / 4;
    const spec: TiffSpec = { ...GRID, width, height, values, scale: [1e-4, 1e-4], rowsPerStrip: 16 };
    const { store } = await storeOf({ "large.tif": tiff(spec) });
    const profile = await store.profile(at(49.999, 5.001), at(49.68, 5.49));
    expect(profile.gaps).toEqual([]);
    expect(store.stats().tilesRead).toBeGreaterThan(3);
    // Column + row over 4, cut to whole metres when written: within 1 m of the plane, and rising all the way.
    expect(Math.abs(profile.heightM[0]! - 5)).toBeLessThan(1);
    expect(Math.abs(profile.heightM.at(-1)! - (4900 + 3200) / 4)).toBeLessThan(1);
    const middle = profile.heightM.length >> 1;
    expect(Math.abs(profile.heightM[middle]! - (10 + 10 + 4900 + 3200) / 8)).toBeLessThan(2);
  });
});

describe("text grids", () => {
  const PRJ =
    'GEOGCS["G",DATUM["D_WGS_1984",SPHEROID["WGS_1984",6378137.0,298.257223563]],PRIMEM["Greenwich",0.0],UNIT["Degree",0.0174532925199433]]';
  const BODY = "10 20 30\n110 120.5 -9999\n";
  it("reads corner and centre headers, any case, with and without nodata line", async () => {
    for (const header of [
      "ncols 3\nnrows 2\nxllcorner 4.95\nyllcorner 49.85\ncellsize 0.1\nNODATA_value -9999\n",
      "NCOLS 3\r\nNROWS 2\r\nXLLCENTER 5\r\nYLLCENTER 49.9\r\nCELLSIZE 0.1\r\n",
      "nrows 2\nncols 3\nyllcenter 49.9\nxllcenter 5\ndx 0.1\ndy 0.1\nnodata_value nan\n",
    ]) {
      const body = header.includes("nan") ? BODY.replace("-9999", "nan") : BODY;
      const { store } = await storeOf({ "g.asc": header + body, "g.prj": PRJ });
      expect(await store.heightAt(at(49.95, 5.05))).toBeCloseTo((10 + 20 + 110 + 120.5) / 4, 4);
      expect(await store.heightAt(at(49.95, 5.15))).toBeUndefined();
      expect(store.problems).toEqual([]);
    }
  });

  it("says what is wrong with it", async () => {
    const header = "ncols 3\nnrows 2\nxllcorner 4.95\nyllcorner 49.85\ncellsize 0.1\n";
    const message = async (files: Record<string, string>) => {
      const { store } = await storeOf(files);
      await store.heightAt(at(49.95, 5.05));
      return store.problems.map((p) => p.message).join("\n");
    };
    expect(await message({ "g.asc": header + BODY })).toMatch(/no \.prj file beside it.*put the \.prj/);
    expect(await message({ "g.asc": header + BODY, "g.prj": "x" })).toMatch(/^its \.prj is no WKT/);
    expect(await message({ "g.asc": `${header}10 20 30\n110`, "g.prj": PRJ })).toMatch(
      /^4 heights of 6.*cut short/,
    );
    expect(await message({ "g.asc": `${header}${BODY}7`, "g.prj": PRJ })).toMatch(/^more than the 6 heights/);
    expect(await message({ "g.asc": header + BODY.replace("120.5", "12x"), "g.prj": PRJ })).toMatch(
      /^row 2, column 2: "12x"/,
    );
    for (const number of ["0x10", "Infinity", "1e999", `1${"0".repeat(40)}`, `1.${"0".repeat(40)}e3`])
      expect(await message({ "g.asc": header + BODY.replace("120.5", number), "g.prj": PRJ })).toMatch(
        /^row 2, column 2: "[^"]+" is no number/,
      );
    expect(await message({ "g.asc": header.replace("ncols 3", "ncols 0x3") + BODY, "g.prj": PRJ })).toMatch(
      /^header line ncols holds "0x3"/,
    );
    expect(await message({ "g.asc": header + BODY.replace("120.5", "1.205e+2"), "g.prj": PRJ })).toBe("");
    expect(await message({ "g.asc": header.replace("cellsize 0.1\n", "") + BODY, "g.prj": PRJ })).toMatch(
      /cellsize is missing/,
    );
    expect(await message({ "g.asc": header.replace("nrows 2", "nrows -2") + BODY, "g.prj": PRJ })).toMatch(
      /cannot be sampled/,
    );
  });
});

describe("files that cannot be used", () => {
  const good = tiff(GRID);
  const JUNK = Uint8Array.from({ length: 5000 }, (_, i) => (i * 7919) % 251);
  const cases: Record<string, { name: string; bytes: Uint8Array | string; says: RegExp }> = {
    "empty tile": { name: "N40E010.hgt", bytes: "", says: /^is empty/ },
    "tile cut short": {
      name: "N40E010.hgt",
      bytes: HGT.subarray(0, 2_000_000),
      says: /^2000000 bytes are no whole tile/,
    },
    "tile without a corner in its name": {
      name: "hills.hgt",
      bytes: HGT,
      says: /does not name a tile's corner/,
    },
    "gzip cut short": {
      name: "N40E010.hgt.gz",
      bytes: gzipSync(HGT).subarray(0, 9000),
      says: /^is cut short: it ends before its data do; fetch the tile again$/,
    },
    "gzip of a tile of another size": {
      name: "N40E010.hgt.gz",
      bytes: gzipSync(HGT.subarray(0, 2_000_000)),
      says: /^2000000 bytes are no whole tile/,
    },
    "gzip of junk": {
      name: "N40E010.hgt.gz",
      bytes: Buffer.concat([JUNK, gzipSync(HGT).subarray(-4)]),
      says: /^is no whole gzip file \(/,
    },
    "gzip that unpacks to much more than a tile": {
      name: "N40E010.hgt.gz",
      bytes: gzipSync(new Uint8Array(60_000_000)),
      says: /^holds more than a tile; fetch the tile again$/,
    },
    "zip cut short": {
      name: "N40E010.hgt.zip",
      bytes: zipSync({ "N40E010.hgt": HGT }).subarray(0, 9000),
      says: /^is no zip archive, or cut short/,
    },
    "zip of junk": { name: "N40E010.hgt.zip", bytes: JUNK, says: /^is no zip archive/ },
    "zip without a tile": { name: "a.zip", bytes: zipSync({ "a.txt": JUNK }), says: /^holds no \.hgt tile/ },
    "TIFF of junk": { name: "a.tif", bytes: JUNK, says: /^is no TIFF/ },
    "zip whose directory gives the tile another name": {
      name: "a.zip",
      bytes: zipRenamed(HGT),
      says: /^N40E011\.hgt has another name where it lies; fetch the tile again$/,
    },
    "TIFF with a key of no known name whose value is missing": {
      name: "keys.tif",
      bytes: tiffWithoutKeyValue(),
      says: /^damaged or cut short; fetch the file again or write it anew$/,
    },
    "TIFF of 3 bytes": { name: "a.tif", bytes: "II*", says: /^damaged or cut short/ },
    "TIFF cut short": {
      name: "a.tif",
      bytes: good.subarray(0, good.length - 10),
      says: /^is cut short: block 1/,
    },
    "TIFF cut in its directory": {
      name: "a.tif",
      bytes: good.subarray(0, 100),
      says: /^damaged or cut short/,
    },
    "no georeference": {
      name: "a.tif",
      bytes: tiff({ ...GRID, scale: undefined, tie: undefined }),
      says: /no georeference/,
    },
    "no coordinate system": {
      name: "a.tif",
      bytes: tiff({ ...GRID, keys: undefined }),
      says: /names no coordinate system/,
    },
    "unknown coordinate system": {
      name: "a.tif",
      bytes: tiff({
        ...GRID,
        keys: [
          [1024, 1],
          [3072, 5514],
        ],
      }),
      says: /^EPSG:5514 is not among the coordinate systems known; known are/,
    },
    "own coordinate system": {
      name: "a.tif",
      bytes: tiff({
        ...GRID,
        keys: [
          [1024, 1],
          [3072, 32767],
        ],
      }),
      says: /without an EPSG code/,
    },
    "place off the globe": {
      name: "a.tif",
      bytes: tiff({ ...GRID, tie: [5, 500] }),
      says: /not on the globe/,
    },
    picture: { name: "a.tif", bytes: tiff({ ...GRID, photometric: 2 }), says: /^is a picture/ },
    "unknown compression": {
      name: "a.tif",
      bytes: tiff({ ...GRID, claimCompression: 34925 }),
      says: /^compression 34925 cannot be read/,
    },
    "LERC in a big-endian file": {
      name: "a.tif",
      bytes: tiff({ ...GRID, lerc: 0, bigEndian: true }),
      says: /^compression 34887 cannot be read/,
    },
    "empty blocks without a nodata value": {
      name: "a.tif",
      bytes: tiff({ ...GRID, noData: undefined, tile: 16, sparse: [0] }),
      says: /^has empty blocks but declares no nodata value/,
    },
    "damaged block": {
      name: "a.tif",
      bytes: tiff({ ...GRID, claimCompression: 8 }),
      says: /^damaged or cut short/,
    },
  };
  for (const [name, { name: file, bytes, says }] of Object.entries(cases)) {
    it(`${name}: one line, and the others still serve`, async () => {
      const { store } = await storeOf({ [`bad/${file}`]: bytes, "N40E011.hgt": HGT_EAST });
      // Some faults show only when heights are read.
      for (const place of [at(40.5, 10.5), at(49.9, 5.1)])
        expect(await store.heightAt(place)).toBeUndefined();
      expect(store.problems).toHaveLength(1);
      expect(store.problems[0]!.file).toBe(`terrain/bad/${file}`);
      expect(store.problems[0]!.message).toMatch(says);
      expect(store.problems[0]!.reservation).toBeUndefined();
      expect(store.problems[0]!.message).toContain("; ");
      expect(store.problems[0]!.message).not.toMatch(/\n|\/tmp/);
      expect(await store.heightAt(at(40.5, 11.5))).toBeCloseTo(4200, 6);
    });
  }

  it("names a root that is not there, and lives without", async () => {
    const store = await openTerrain(["nowhere"], { baseDir: folder });
    expect(store.problems).toEqual([
      { file: "nowhere", message: "no such file or folder; correct the terrain setting" },
    ]);
    expect(await store.heightAt(at(0, 0))).toBeUndefined();
  });

  it.skipIf(!existsSync("/dev/zero"))("names a root that is neither file nor folder", async () => {
    const store = await openTerrain(["/dev/zero"], { baseDir: folder });
    expect(store.problems).toEqual([
      { file: "/dev/zero", message: "is neither a file nor a folder; correct the terrain setting" },
    ]);
  });

  it("follows a ring of linked folders once", async () => {
    const { baseDir } = await storeOf({ "N40E010.hgt": HGT });
    symlinkSync(join(baseDir, "terrain"), join(baseDir, "terrain", "again"));
    const store = await openTerrain(["terrain"], { baseDir });
    expect(store.problems).toEqual([]);
    expect(await store.heightAt(at(40.5, 10.5))).toBeCloseTo(1800, 6);
  });
});

describe("links", () => {
  it("that lead out of what the network names are told and not followed", async () => {
    const { baseDir: elsewhere } = await storeOf({ "N40E010.hgt": HGT });
    const { baseDir } = await storeOf({ "N40E011.hgt": HGT_EAST });
    symlinkSync(join(elsewhere, "terrain"), join(baseDir, "terrain", "more"));
    symlinkSync("/etc/hostname", join(baseDir, "terrain", "notes.txt"));
    const store = await openTerrain(["terrain"], { baseDir });
    expect(store.problems.map(({ file }) => file)).toEqual(["terrain/more"]);
    expect(store.problems[0]!.message).toMatch(
      /^this link leads elsewhere, to .*, and is not followed; name that/,
    );
    expect(await store.heightAt(at(40.5, 10.5))).toBeUndefined();
    expect(await store.heightAt(at(40.5, 11.5))).toBeCloseTo(4200, 6);
    const named = await openTerrain(["terrain", join(elsewhere, "terrain")], { baseDir });
    expect(named.problems).toEqual([]);
    expect(await named.heightAt(at(40.5, 10.5))).toBeCloseTo(1800, 6);
  });
});

describe("store", () => {
  it("lists its rasters, finest first, with how well their system is tied to WGS 84", async () => {
    const swiss = {
      ...GRID,
      keys: [
        [1024, 1],
        [1025, 2],
        [3072, 2056],
      ] as const,
      scale: [10, 10] as const,
      tie: [2.6e6, 1.2e6] as const,
    };
    const { store } = await storeOf({ "N40E010.hgt": HGT, "swiss.tif": tiff(swiss) });
    expect(store.files).toEqual([
      { file: "terrain/swiss.tif", crs: "EPSG:2056", crsAccuracyM: 1, pixelM: expect.closeTo(10, 1) },
      { file: "terrain/N40E010.hgt", crs: "EPSG:4326", crsAccuracyM: 0, pixelM: expect.closeTo(81, 0) },
    ]);
  });

  it("sees a .prj that is put beside a text grid", async () => {
    const grid = "ncols 2\nnrows 2\nxllcenter 5\nyllcenter 49\ncellsize 1\n1 2\n3 4\n";
    const { baseDir, store } = await storeOf({ "g.asc": grid });
    expect(store.problems).toHaveLength(1);
    const prj = join(baseDir, "terrain/g.prj");
    writeFileSync(
      prj,
      'GEOGCS["G",DATUM["D_WGS_1984",SPHEROID["WGS_1984",6378137.0,298.257223563]],PRIMEM["Greenwich",0.0],UNIT["Degree",0.0174532925199433]]',
    );
    utimesSync(prj, new Date(), new Date(Date.now() + 5000));
    expect(await store.refresh()).toBe(true);
    expect(store.problems).toEqual([]);
    expect(await store.heightAt(at(49.5, 5.5))).toBe(2.5);
  });

  it("keeps its heights within the bound, and answers all the same", async () => {
    const { store } = await storeOf(
      { "N40E010.hgt": HGT, "N40E011.hgt": HGT_EAST },
      { cacheBytes: 3_000_000 },
    );
    const profile = await store.profile(at(40.2, 10.9), at(40.3, 11.1));
    expect(profile.gaps).toEqual([]);
    expect(store.stats().cacheBytes).toBe(2884802);
    const tiny = await storeOf({ "N40E010.hgt": HGT }, { cacheBytes: 1000 });
    expect(await tiny.store.heightAt(at(40.5, 10.5))).toBeCloseTo(1800, 6);
    expect(tiny.store.stats().cacheBytes).toBe(0);
  });

  it("reads a tile once for many askers", async () => {
    const { store } = await storeOf({ "N40E010.hgt": HGT });
    await Promise.all(
      Array.from({ length: 20 }, (_, i) => store.profile(at(40.2, 10.2), at(40.3, 10.3 + i / 100))),
    );
    expect(store.stats().tilesRead).toBe(1);
  });

  it("changes the stamp of a path when, and only when, a raster there changes", async () => {
    const { baseDir, store } = await storeOf({ "N40E010.hgt": HGT, "N40E011.hgt": HGT_EAST });
    const here = () => store.stampFor(at(40.2, 10.2), at(40.3, 10.3));
    const there = () => store.stampFor(at(40.2, 11.2), at(40.3, 11.3));
    const before = [here(), there()];
    expect(await store.refresh()).toBe(false);
    expect([here(), there()]).toEqual(before);
    expect(await store.heightAt(at(40.5, 10.5))).toBeCloseTo(1800, 6);

    const path = join(baseDir, "terrain/N40E010.hgt");
    writeFileSync(
      path,
      encodeHgt({ southDeg: 40, westDeg: 10 }, 1201, () => 9),
    );
    utimesSync(path, new Date(), new Date(Date.now() + 5000));
    expect(await store.refresh()).toBe(true);
    expect(here()).not.toBe(before[0]);
    expect(there()).toBe(before[1]);
    expect(await store.heightAt(at(40.5, 10.5))).toBe(9);
  });

  it("gives two ends to a path of no length", async () => {
    const { store } = await storeOf({ "N40E010.hgt": HGT });
    const profile = await store.profile(at(40.5, 10.5), at(40.5, 10.5));
    expect(Array.from(profile.distanceM)).toEqual([0, 0]);
    expect(profile.heightM.every((h) => Math.abs(h - 1800) < 1e-6)).toBe(true);
    expect(profile.stepM).toBe(0);
  });

  it("refuses a step that is none", async () => {
    const { store } = await storeOf({ "N40E010.hgt": HGT });
    for (const stepM of [0, -1, Number.NaN]) {
      await expect(store.profile(at(40.5, 10.5), at(40.5, 10.6), { stepM })).rejects.toThrow(RangeError);
    }
  });
});
