/** Lists of others' transmissions: what is read of them, and what is told. All figures are invented. */
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import fc from "fast-check";
import { afterAll, describe, expect, test } from "vitest";
import { readOthersFile } from "../../server/others/read-tables.js";
import type { OthersList } from "../../shared/design/interference.js";
import type { OthersFile } from "../../shared/others/listed.js";
import { type FaultCode, type OthersRead, OthersReading } from "../../shared/others/reading.js";
import { FIGURES, type OthersTable } from "../../shared/others/table.js";
import { fixture } from "../support/fixture.js";
import { readText } from "../support/listed.js";

const folder = mkdtempSync(join(tmpdir(), "hopwright-others-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

function listOf(lines: string): OthersList {
  const { model, file } = fixture(`others "register.csv" {\n${lines}\n}`);
  expect(model.problemsOf(file)).toEqual([]);
  return model.design().others![0]!;
}

let files = 0;

function readAs(list: OthersList, text: string | Uint8Array): Promise<OthersFile> {
  const path = join(folder, `${files++}.csv`);
  writeFileSync(path, text);
  return readOthersFile(path, list);
}

async function read(lines: string, text: string | Uint8Array): Promise<OthersFile> {
  return readAs(listOf(lines), text);
}

async function usable(lines: string, text: string | Uint8Array): Promise<OthersRead> {
  const file = await read(lines, text);
  if ("unusable" in file) throw new Error(file.unusable);
  return file;
}

function rowsOf(table: OthersTable) {
  return Array.from({ length: table.count }, (_, index) => table.at(index));
}

const PLAIN = `latitude "lat"
longitude "lon"
frequency "f_MHz"
emission "emission"
eirp "eirp"`;
const HEAD = "lat,lon,f_MHz,emission,eirp";
const ROW = "47.5,-30.5,18700,55M0D7W,60";

test("a row with what it cannot be without", async () => {
  const { table, faults, columnFaults, rows } = await usable(PLAIN, `${HEAD}\n${ROW}\n`);
  expect({ faults, columnFaults, rows }).toEqual({ faults: [], columnFaults: [], rows: 1 });
  expect(rowsOf(table)).toEqual([
    {
      line: 2,
      position: { latitudeDeg: 47.5, longitudeDeg: -30.5 },
      frequencyHz: 18.7e9,
      bandwidthHz: 55e6,
      leastBandwidthHz: 55e6,
      eirpDbm: 60,
    },
  ]);
});

/** The shape of a public register of licences, both ends in a row; the rows are invented. */
const REGISTER = `tx_lat,tx_lon,tx_ground_m,tx_structure_m,rx_lat,rx_lon,rx_ground_m,rx_structure_m,tx_antenna_m,rx_antenna_m,frequency_MHz,polarization,tx_gain_dBi,tx_beamwidth_deg,rx_gain_dBi,rx_beamwidth_deg,rx_diversity_m,rx_diversity_gain_dBi,eirp_dBm,atpc,azimuth_deg,emissions,rate_kbps,modulation
47.300944,-30.674028,134.7,30.5,47.445833,-30.619444,59.1,,18.9,14.0,6785.625,V,38.8,1.8,38.9,1.8,,,60.3,N,14.3,3M75D7W|10M0D7W,14029.0,32QAM
47.445833,-30.619444,59.1,,47.300944,-30.674028,134.7,30.5,14.0,18.9,6625.625,H,38.9,1.8,38.8,1.8,,,61.3,Y,194.2,3M75D7W,14029.0,32QAM
47.445833,-30.619444,59.1,,47.445833,-30.619444,59.1,,14.0,14.0,6625.625,X,38.9,1.8,38.8,1.8,,,61.3,Y,194.2,3M75D7W,14029.0,32QAM
`;
const REGISTER_COLUMNS = `latitude "tx_lat"
longitude "tx_lon"
ground "tx_ground_m"
antenna-height "tx_antenna_m"
antenna-gain "tx_gain_dBi"
azimuth "azimuth_deg"
frequency "frequency_MHz"
emission "emissions"
polarization "polarization"
eirp "eirp_dBm"
receiver-latitude "rx_lat"
receiver-longitude "rx_lon"
receiver-ground "rx_ground_m"
receiver-antenna-height "rx_antenna_m"
receiver-antenna-gain "rx_gain_dBi"`;

test("the shape of a public register: both ends, several emissions, both ends in one place", async () => {
  const { table, faults } = await usable(REGISTER_COLUMNS, REGISTER);
  expect(faults).toEqual([]);
  const rows = rowsOf(table);
  expect(rows).toHaveLength(3);
  expect(rows.at(-1)).toEqual({
    line: 2,
    position: { latitudeDeg: 47.300944, longitudeDeg: -30.674028 },
    groundM: 134.7,
    antennaHeightM: 18.9,
    frequencyHz: 6785.625e6,
    bandwidthHz: 10e6,
    leastBandwidthHz: 3.75e6,
    polarization: "vertical",
    eirpDbm: 60.3,
    gainDbi: 38.8,
    azimuthDeg: 14.3,
    receiver: {
      position: { latitudeDeg: 47.445833, longitudeDeg: -30.619444 },
      groundM: 59.1,
      antennaHeightM: 14,
      gainDbi: 38.9,
    },
  });
  const same = rows.find(({ line }) => line === 4)!;
  expect([same.receiver, same.polarization]).toEqual([undefined, undefined]);
});

describe("notations", () => {
  const place = async (columns: string, head: string, cells: string, mark = ",") => {
    const { table, faults } = await usable(
      `${columns}\nfrequency "f" in MHz\nbandwidth "b" in MHz\neirp "e"`,
      `${head}${mark}f${mark}b${mark}e\n${cells}${mark}18700${mark}28${mark}60\n`,
    );
    expect(faults).toEqual([]);
    return table.at(0).position;
  };
  const LATLON = 'latitude "lat"\nlongitude "lon"';

  test.each([
    [LATLON, "lat,lon", `"47°30'00""N","30°30'00""W"`, ","],
    [LATLON, "lat;lon", "47 30 00 N;30 30 00 W", ";"],
    [LATLON, "lat;lon", "47,5;-30,5", ";"],
    [LATLON, "lat,lon", "47.5,329.5", ","],
    ['position "at"', "at", '"47.5, -30.5"', ","],
    [
      'latitude "d1" minutes "m1" seconds "s1" hemisphere "h1"\nlongitude "d2" minutes "m2" seconds "s2" hemisphere "h2"',
      "d1,m1,s1,h1,d2,m2,s2,h2",
      "47,30,0.0,N,30,30,0.0,W",
      ",",
    ],
  ])("%s of %s: %s", async (columns, head, cells, mark) => {
    const { latitudeDeg, longitudeDeg } = await place(columns, head, cells, mark);
    expect(latitudeDeg).toBeCloseTo(47.5, 9);
    expect(longitudeDeg).toBeCloseTo(-30.5, 9);
  });

  test("projected coordinates in the system that is named", async () => {
    // The central meridian of zone 32 is 9 degrees east, at an easting of 500 km.
    const at = await place('epsg 32632\neasting "e"\nnorthing "n"', "e,n", "500000,5261234").catch(
      () => undefined,
    );
    expect(at).toBeUndefined();
    const { table } = await usable(
      'epsg 32632\neasting "x"\nnorthing "y"\nfrequency "f" in MHz\nbandwidth "b" in MHz\neirp "p"',
      "x,y,f,b,p\n500000,5261234,18700,28,60\n",
    );
    expect(table.at(0).position.longitudeDeg).toBeCloseTo(9, 9);
    expect(table.at(0).position.latitudeDeg).toBeCloseTo(47.5, 1);
  });

  test.each([
    ['frequency "f" in GHz', "f", "18.7"],
    ['frequency "f" in kHz', "f", "18700000"],
    ['frequency "f (GHz)"', "f (GHz)", "18.7"],
    ['frequency "f"', "f", "18700"],
    ['frequency "f"', "f", "18.7 GHz"],
  ])("%s headed %s: %s", async (column, head, cell) => {
    const { table } = await usable(
      `latitude "lat"\nlongitude "lon"\n${column}\nbandwidth "b"\neirp "e"`,
      `lat,lon,${head},b,e\n47.5,-30.5,${cell},28,60\n`,
    );
    expect(table.at(0).frequencyHz).toBeCloseTo(18.7e9, 0);
  });

  test.each([
    ['eirp "e"', "e", "60", 60],
    ['eirp "e" in dBW', "e", "30", 60],
    ['eirp "e_W"', "e_W", "1000", 60],
    ['power "e" in W\nantenna-gain "g"\nfeeder-loss "l"', "e,g,l", "1,38,2", 66],
    ['power "e" in dBm\nantenna-gain "g" in dBd', "e,g", "20,37.85", 60],
  ])("%s", async (columns, head, cells, eirpDbm) => {
    const { table } = await usable(
      `latitude "lat"\nlongitude "lon"\nfrequency "f"\nbandwidth "b"\n${columns}`,
      `lat,lon,f,b,${head}\n47.5,-30.5,18700,28,${cells}\n`,
    );
    expect(table.at(0).eirpDbm).toBeCloseTo(eirpDbm, 9);
  });

  test("power with a diameter counts with the gain that is estimated elsewhere too", async () => {
    const { table } = await usable(
      'latitude "lat"\nlongitude "lon"\nfrequency "f"\nbandwidth "b"\npower "p"\nantenna-diameter "d_ft"',
      "lat,lon,f,b,p,d_ft\n47.5,-30.5,18700,28,20,2\n",
    );
    // 10 lg (0.55 (pi D / lambda)^2) with D 0.6096 m, by hand.
    expect(table.at(0).eirpDbm).toBeCloseTo(20 + 38.93, 1);
    expect(table.at(0)).toMatchObject({ diameterM: 0.6096, gainDbi: undefined });
  });
});

test("days and states: what does not count yet, any more, or at all", async () => {
  const { table, notStanding, faults } = await usable(
    `${PLAIN}\nvalid-from "from"\nvalid-until "until"\nstatus "state" stands "A"`,
    `${HEAD},from,until,state\n${ROW},2026-01-01,2027-12-31,A\n${ROW},,,a\n${ROW},,,C\n47.6,-30.5,18700,55M0D7W,60,13.13.2026,,A\n`,
  );
  expect([table.count, notStanding]).toEqual([3, 1]);
  expect(faults).toMatchObject([{ code: "cell", key: "valid-from", lines: [5] }]);
  const dated = rowsOf(table).findIndex(({ firstDay }) => firstDay !== undefined);
  expect(table.at(dated)).toMatchObject({ firstDay: "2026-01-01", lastDay: "2027-12-31" });
  const stands = (day: string) => table.stands(dated, day);
  expect(["2025-12-31", "2026-01-01", "2027-12-31", "2028-01-01"].map(stands)).toEqual([
    false,
    true,
    true,
    false,
  ]);
  expect(rowsOf(table).every((_, i) => i === dated || table.stands(i, "1999-01-01"))).toBe(true);
});

describe("bad input: told, and the rest counts", () => {
  test.each<[what: string, row: string, code: FaultCode]>([
    ["no position", ",,18700,55M0D7W,60", "position"],
    ["text for a position", "north,-30.5,18700,55M0D7W,60", "position"],
    ["nought for what is not known", "0,0,18700,55M0D7W,60", "position"],
    ["exchanged coordinates", "-130.5,47.5,18700,55M0D7W,60", "exchanged"],
    ["text for a frequency", "47.5,-30.5,high,55M0D7W,60", "frequency"],
    ["a frequency of no radio of ours", "47.5,-30.5,99,55M0D7W,60", "frequency"],
    ["no designator", "47.5,-30.5,18700,wide,60", "bandwidth"],
    ["no EIRP", "47.5,-30.5,18700,55M0D7W,", "eirp"],
    ["an EIRP beyond all reason", "47.5,-30.5,18700,55M0D7W,121", "eirp"],
  ])("%s", async (_, row, code) => {
    const { table, faults } = await usable(PLAIN, `${HEAD}\n${ROW}\n${row}\n`);
    expect(table.count).toBe(1);
    expect(faults).toMatchObject([{ code, rows: 1, lines: [3] }]);
  });

  test("limits of the frequency from both sides", async () => {
    const frequency = (mhz: string) => `47.5,-30.5,${mhz},55M0D7W,60`;
    const { faults } = await usable(
      PLAIN,
      [HEAD, ...["100", "99.9", "120000", "120000.1"].map(frequency)].join("\n"),
    );
    expect(faults).toMatchObject([{ code: "frequency", lines: [3, 5] }]);
  });

  test("a cell that a row can be without costs the cell", async () => {
    const { table, faults } = await usable(
      `${PLAIN}\nantenna-height "h"`,
      `${HEAD},h\n${ROW},high\n47.6,-30.5,18700,55M0D7W,60,20\n47.7,-30.5,18700,55M0D7W,60,-1\n`,
    );
    expect(table.count).toBe(3);
    expect(faults).toEqual([{ code: "cell", key: "antenna-height", rows: 2, lines: [2, 4], sample: "high" }]);
  });

  test("what stands there and is not used is told, and not passed over in silence", async () => {
    const lines = `${PLAIN}\npower "p" in dBm\nantenna-gain "g" in dBi\nreceiver-latitude "rlat"\nreceiver-longitude "rlon"`;
    const head = `${HEAD},p,g,rlat,rlon`;
    const told = async (row: string) => {
      const { faults, table } = await usable(lines, `${head}\n${row}\n`);
      return [table.count, ...faults.map(({ code, key }) => `${code} ${key ?? ""}`.trim())];
    };
    // An EIRP that cannot be read beside a power that can.
    expect(await told("47.5,-30.5,18700,55M0D7W,95x,20,40,,")).toEqual([1, "cell eirp"]);
    // Half of the receiver's place, either half.
    expect(await told("47.5,-30.5,18700,55M0D7W,60,,,,-30.4")).toEqual([1, "cell receiver-longitude"]);
    expect(await told("47.5,-30.5,18700,55M0D7W,60,,,47.6,")).toEqual([1, "cell receiver-latitude"]);
    // 55 GHz: a slip of the letter.
    expect(await told("47.5,-30.5,18700,55G0D7W,60,,,,")).toEqual([0, "bandwidth"]);
    expect(await told("47.5,-30.5,18700,10G0D7W,60,,,,")).toEqual([1]);
  });

  test("many faults of one sort are one, with the first lines", async () => {
    const bad = Array.from({ length: 20 }, () => "47.5,-30.5,x,55M0D7W,60");
    const { faults } = await usable(PLAIN, [HEAD, ...bad, ROW].join("\n"));
    expect(faults).toEqual([{ code: "frequency", rows: 20, lines: [2, 3, 4, 5, 6], sample: "x" }]);
  });

  test("of a file that is no such list nothing is told but figures", async () => {
    // Every column on the one head that such a file begins with.
    const text = "root:x:0:0:root:/root:/bin/sh\nbin:x:1:1::/:/bin/false\nop:x:2:2::/:/bin/false\n";
    const keys = ["latitude", "longitude", "frequency", "emission", "eirp", "antenna-height", "name"];
    const known = keys.map((key) => `${key} "root:x:0:0:root:/root:/bin/sh"`).join("\n");
    const guessed = known.replaceAll("/bin/sh", "/bin/zsh");
    for (const lines of [known, guessed]) {
      const read = await usable(lines, text);
      expect(JSON.stringify([read.faults, read.columnFaults])).not.toMatch(/false|root:\/root:\/bin\/sh"/);
    }
    const figures = await usable(PLAIN, `${HEAD}\n47.6,-30.4,18.7,28,60\n`);
    expect(figures.faults).toMatchObject([{ code: "frequency", sample: "18.7" }]);
  });

  test("rows that a stray quotation mark takes into a cell are told with its line", async () => {
    const lines = `name "name"\n${PLAIN}`;
    const named = (name: string) => `${name},${ROW}`;
    const rows = ["a", '"b', "c", "d", 'e"', "f"].map(named);
    // The second mark ends the cell of the first.
    const told = async (all: readonly string[]) => {
      const { faults, table } = await usable(lines, [`name,${HEAD}`, ...all].join("\n"));
      return [table.count, ...faults.map(({ code, rows: count, lines: at }) => `${code} ${count} ${at}`)];
    };
    expect(await told(rows)).toEqual([3, "swallowed 3 3"]);
    expect(await told(rows.map((row) => row.replaceAll('"', "")))).toEqual([6]);
    // An address over two lines is one cell.
    expect(await told([named("a"), `"b street,\ntown",${ROW}`, named("c")])).toEqual([3]);
  });

  test("a head that the file has not, with the nearest, or has twice", async () => {
    const { columnFaults } = await usable(PLAIN.replace('"eirp"', '"eirpp"'), `${HEAD},lat\n${ROW},0\n`);
    expect(columnFaults).toEqual([
      { key: "latitude", argument: "column", head: "lat", is: "doubled" },
      { key: "eirp", argument: "column", head: "eirpp", is: "missing", nearest: "eirp" },
    ]);
  });

  test.each([
    ["an empty file", ""],
    ["a line of heads alone", `${HEAD}\n`],
    ["blank lines", "\n\n\n"],
  ])("%s", async (_, text) => {
    expect(await read(PLAIN, text)).toEqual({ unusable: "it has no rows below a line of heads" });
  });

  test("a mark of the byte order, quotes, CRLF, a tab, another character set", async () => {
    for (const text of [
      `\uFEFF${HEAD}\r\n${ROW}\r\n`,
      `${HEAD}\n"47.5","-30.5","18700","55M0D7W","60"\n`,
      `${HEAD}\n${ROW}\n`.replaceAll(",", "\t"),
    ]) {
      const { table, faults } = await usable(PLAIN, text);
      expect([table.count, faults]).toEqual([1, []]);
    }
    const latin = Uint8Array.from(`name,${HEAD}\nM\xfcller,${ROW}\n`, (letter) => letter.charCodeAt(0));
    const { table } = await usable(`name "name"\n${PLAIN}`, latin);
    expect(table.at(0).name).toBe("Müller");
  });

  test("bytes that are no table at all", async () => {
    const path = join(folder, "bytes.csv");
    await fc.assert(
      fc.asyncProperty(fc.uint8Array({ maxLength: 300 }), async (bytes) => {
        writeFileSync(path, bytes);
        const file = await readOthersFile(path, listOf(PLAIN));
        if (!("unusable" in file)) expect(file.table.count).toBe(0);
      }),
      { numRuns: 60 },
    );
  });

  test("a quote that does not end", async () => {
    const path = join(folder, "quote.csv");
    writeFileSync(path, `${HEAD}\n${ROW}\n"47.5,-30.5\n`);
    expect(await readOthersFile(path, listOf(PLAIN))).toEqual({
      unusable: expect.stringMatching(/quote.* line \d/i),
    });
  });

  test("a row that repeats another counts once", async () => {
    const { table, faults } = await usable(PLAIN, `${HEAD}\n${ROW}\n${ROW}\n${ROW.replace("60", "61")}\n`);
    expect(table.count).toBe(2);
    expect(faults).toEqual([{ code: "repeated", rows: 1, lines: [3], sample: "" }]);
  });
});

/** Cells of one row in the register's form, most of them there. */
const written = fc.record({
  lat: fc.integer({ min: -89_000, max: 89_000 }).map((n) => String((n || 1) / 1000)),
  lon: fc.integer({ min: -179_000, max: 179_000 }).map((n) => String(n / 1000)),
  f: fc.integer({ min: 6000, max: 80_000 }).map(String),
  emission: fc.constantFrom("28M0D7W", "55M0D7W", "3M75D7W|10M0D7W"),
  eirp: fc.integer({ min: 20, max: 80 }).map(String),
  height: fc.option(fc.integer({ min: 1, max: 200 }).map(String), { nil: "" }),
  polarization: fc.constantFrom("V", "H", ""),
  rxLat: fc.option(
    fc.integer({ min: -89_000, max: 89_000 }).map((n) => String((n || 1) / 1000)),
    { nil: "" },
  ),
});
const COLUMNS = `${PLAIN}
antenna-height "height"
polarization "polarization"
receiver-latitude "rxLat"
receiver-longitude "lon"`;
const HEADS = ["lat", "lon", "f_MHz", "emission", "eirp", "height", "polarization", "rxLat"];

const cellsOf = (row: typeof written extends fc.Arbitrary<infer R> ? R : never) => [
  row.lat,
  row.lon,
  row.f,
  row.emission,
  row.eirp,
  row.height,
  row.polarization,
  row.rxLat,
];

/** Without the lines, which are those of the order in the file. */
function contentOf(table: OthersTable): unknown {
  return rowsOf(table).map(({ line: _, ...row }) => row);
}

test("rows in any order give the same table, each once", () => {
  const list = listOf(COLUMNS);
  const shuffled = fc
    .array(written, { maxLength: 40 })
    .chain((rows) => fc.tuple(fc.constant(rows), fc.shuffledSubarray(rows, { minLength: rows.length })));
  fc.assert(
    fc.property(shuffled, ([rows, others]) => {
      const tables = [rows, others].map((some) => {
        const reading = new OthersReading(list, HEADS);
        for (const [index, row] of [...some, ...some].entries()) reading.take(index + 2, cellsOf(row));
        return reading.finish().table;
      });
      expect(contentOf(tables[0]!)).toEqual(contentOf(tables[1]!));
      expect(tables[0]!.count).toBe(new Set(rows.map((row) => cellsOf(row).join())).size);
    }),
    { numRuns: 100 },
  );
});

test("a table written and read again is the same", () => {
  const list = listOf(COLUMNS);
  fc.assert(
    fc.property(fc.array(written, { maxLength: 20 }), (rows) => {
      const text = (some: readonly (readonly string[])[]) =>
        [HEADS, ...some].map((row) => row.join()).join("\n");
      const first = readText(list, text(rows.map(cellsOf))).table;
      const again = rowsOf(first).map((row) => [
        String(row.position.latitudeDeg),
        String(row.position.longitudeDeg),
        String(row.frequencyHz / 1e6),
        row.leastBandwidthHz === row.bandwidthHz
          ? row.bandwidthHz === 28e6
            ? "28M0D7W"
            : "55M0D7W"
          : "3M75D7W|10M0D7W",
        String(row.eirpDbm),
        String(row.antennaHeightM ?? ""),
        row.polarization?.slice(0, 1).toUpperCase() ?? "",
        String(row.receiver?.position.latitudeDeg ?? ""),
      ]);
      expect(contentOf(readText(list, text(again)).table)).toEqual(contentOf(first));
    }),
    { numRuns: 100 },
  );
});

test("lists of one file that are read at the same time are each read whole", async () => {
  const path = join(folder, "shared.csv");
  writeFileSync(path, `name,${HEAD}\n${Array.from({ length: 3000 }, (_, i) => `N${i},${ROW}`).join("\n")}\n`);
  const [named, plain] = [listOf(`name "name"\n${PLAIN}`), listOf(PLAIN)];
  const [one, other, again] = await Promise.all([
    readOthersFile(path, named),
    readOthersFile(path, plain),
    readOthersFile(path, named),
  ]);
  for (const file of [one, other, again]) expect(file).toMatchObject({ rows: 3000 });
  expect((one as OthersRead).table.at(0).name).toBe("N0");
  expect((other as OthersRead).table.at(0).name).toBeUndefined();
  // One that is gone is told to each, and is read again when it is there.
  const lost = join(folder, "lost.csv");
  const failed = await Promise.all([readOthersFile(lost, named), readOthersFile(lost, plain)]);
  expect(failed).toEqual([failed[0], { unusable: "there is no such file or folder" }]);
  writeFileSync(lost, `${HEAD}\n${ROW}\n`);
  expect(await readOthersFile(lost, plain)).toMatchObject({ rows: 1 });
});

test("in slices it is read as in one go, and no figure is infinite", async () => {
  const rows = Array.from({ length: 5_000 }, (_, i) => {
    const name = i % 7 === 0 ? `"Höhe, ${i}\nzwei"` : `N${i}`;
    return `${name},${(40 + i / 1000).toFixed(3)},-30.5,${18700 + (i % 50)},55M0D7W,60`;
  });
  const text = `name,${HEAD}\n${rows.join("\n")}\n`;
  const list = listOf(`name "name"\n${PLAIN}`);
  const sliced = (await readAs(list, text)) as OthersRead;
  const whole = readText(list, text);
  expect(contentOf(sliced.table)).toEqual(contentOf(whole.table));
  expect(sliced.table.count).toBe(5_000);
  for (const name of FIGURES)
    expect(sliced.table.figures[name].every((value) => Number.isFinite(value) || Number.isNaN(value))).toBe(
      true,
    );
});
