/** Lists of all sorts against designs: directions that pair, sites that match, columns that are unclear. */
import { mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import * as XLSX from "@e965/xlsx";
import { describe, expect, test } from "vitest";
import { importLists } from "../../server/lists/import/import-lists.js";
import { readMapping } from "../../server/lists/import/mapping-file.js";
import { NO_MAPPING } from "../../shared/lists/columns.js";
import { fileOf, fresh, importInto } from "./support.js";

function design(text: string): string {
  const out = fresh("design");
  mkdirSync(out);
  writeFileSync(join(out, "network.hop"), text);
  return out;
}

const csv = (text: string) => fileOf("list.csv", text);

// Two pairs and one single transmission, and one that repeats another, of the licence register of the Federal
// Communications Commission (daily files of one week, about 2017, as the public repository
// Wireless-Innovation-Forum/Spectrum-Access-System keeps them in data/uls); a work of the US government.
const REGISTER = `tx_lat,tx_lon,tx_ground_m,rx_lat,rx_lon,rx_ground_m,tx_antenna_m,rx_antenna_m,frequency_MHz,polarization,tx_gain_dBi,rx_gain_dBi,azimuth_deg,emissions
13.311667,144.764722,111.5,13.432944,144.712611,327.4,15.2,4.6,6645.625,V,38.8,38.8,337.2,3M75D7W
13.432944,144.712611,327.4,13.311667,144.764722,111.5,4.6,15.2,6805.625,V,38.8,38.8,157.2,3M75D7W
13.432944,144.712611,327.4,13.489556,144.828861,200.6,6.4,10.7,6825.625,V,38.8,38.8,63.5,3M75D7W
13.432944,144.712611,327.4,13.489556,144.828861,200.6,6.4,10.7,6825.625,V,38.8,38.8,63.5,3M75D7W
`;

describe("transmissions", () => {
  test("two directions are one hop, the third is kept whole for a register, the fourth says the same", async () => {
    const { plan, newFiles } = await importInto(fresh("out"), csv(REGISTER));
    expect(plan?.transmissions).toMatchObject({ pairs: 1, repeated: 1 });
    expect(plan?.transmissions.single.map(({ line }) => line)).toEqual([4]);
    expect(plan?.newHops).toMatchObject([{ name: "S0001-S0002" }]);
    expect(plan?.newSites.map(({ name }) => name)).toEqual(["S0001", "S0002"]);
    expect(plan?.told).toMatchObject([{ from: { line: 5 }, what: "row", reason: "says the same as line 4" }]);
    const hops = newFiles.find(({ path }) => path === "hops.hop")!.text;
    expect(hops).toBe(`hop S0001-S0002 {
  polarization vertical
  S0001 {
    antenna DISH-38.8dBi-7 at 15.2 m
    transmits 6645.625 MHz
  }
  S0002 {
    antenna DISH-38.8dBi-7 at 4.6 m
    transmits 6805.625 MHz
  }
}
`);
    const lines = REGISTER.split("\n");
    expect(newFiles.find(({ path }) => path.startsWith("others/"))?.text).toBe(
      `${lines[0]}\r\n${lines[3]}\r\n`,
    );
  });

  test("azimuths are compared with the geodesic, and one that is off is told", async () => {
    const { plan } = await importInto(fresh("out"), csv(REGISTER.replace("337.2", "338.2")));
    expect(plan?.compared).toMatchObject({ azimuths: 4, azimuthsOff: 1 });
    expect(plan?.told[0]?.reason).toMatch(
      /^states azimuth 338\.20 deg at S0001; between the positions it is 337\.1\d deg$/,
    );
  });

  test("again, there is nothing to do", async () => {
    const out = fresh("out");
    const file = csv(REGISTER);
    for (const { path, text } of (await importInto(out, file)).newFiles) {
      mkdirSync(join(out, path, ".."), { recursive: true });
      writeFileSync(join(out, path), text);
    }
    const again = await importInto(out, file);
    expect(again.newFiles).toEqual([]);
    expect(again.changed).toEqual([]);
    expect(again.plan?.matched).toEqual({ sites: 2, hops: 1 });
  });

  test("both polarizations of a channel are two hops; directions on different ones are one without", async () => {
    const row = (from: string, to: string, mhz: number, polarization: string) =>
      `${from},${to},${mhz},${polarization}\n`;
    const [a, b] = ["47,-30", "47.1,-30.1"];
    const text = `tx_lat,tx_lon,rx_lat,rx_lon,frequency_MHz,polarization\n${row(a, b, 6000, "V")}${row(a, b, 6000, "H")}${row(b, a, 6250, "H")}${row(b, a, 6250, "V")}${row(a, b, 6100, "V")}${row(b, a, 6350, "H")}`;
    const { plan } = await importInto(fresh("out"), csv(text));
    expect(
      plan?.newHops.map(({ name, facts }) => [name, facts.map(({ args }) => args[0]!.text).join()]),
    ).toEqual([
      ["S0001-S0002", "vertical"],
      ["S0001-S0002-2", "horizontal"],
      ["S0001-S0002-3", ""],
    ]);
  });
});

describe("matching", () => {
  const TEXT = `network "T" {}
// The old tower.
site KELD "Keld quarry" {
  at 47.5 -30.5  // surveyed
  structure tower 30 m
}
site NEAR { at 47.50002 -30.5 }
site FAR { at 47.6 -30.5 }
hop KELD-FAR {
  KELD { height 12 m }
  FAR {}
}
`;

  test("by name, in its place; comments and what has no column stay", async () => {
    const out = design(TEXT);
    const { changed, newFiles } = await importInto(out, csv("site,ground,structure height\nkeld,412,35\n"));
    expect(newFiles).toEqual([]);
    expect(changed[0]?.after).toBe(
      TEXT.replace("tower 30 m", "tower 35 m").replace("  // surveyed\n", "  // surveyed\n  ground 412 m\n"),
    );
  });

  test("by place where no name is known; two candidates are told, neither taken", async () => {
    const out = design(TEXT);
    const { plan } = await importInto(
      out,
      csv("site,lat,lon,ground\nA,47.600001,-30.5,7\nB,47.50001,-30.5,8\nC,47.7,-30.5,9\n"),
    );
    expect(plan?.changes.map(({ at, statement }) => [at, statement.word])).toEqual([
      ["site FAR", "at"],
      ["site FAR", "ground"],
    ]);
    expect(plan?.newSites.map(({ name }) => name)).toEqual(["C"]);
    expect(plan?.told.map(({ from, reason }) => `${from.line}: ${reason}`)).toEqual([
      "2: A is taken for FAR, at its place",
      "3: lies within 5 m of KELD and NEAR, and says by no name which it is",
    ]);
  });

  test("a fact that stands twice, once a state, is not changed by guess", async () => {
    const out = design(TEXT.replace("KELD { height 12 m }", "KELD {\n height 12 m\n height 14 m\n}"));
    const { changed, notChanged } = await importInto(out, csv("hop,site,height\nKELD-FAR,KELD,20\n"));
    expect(changed).toEqual([]);
    expect(notChanged).toEqual([
      "hop KELD-FAR / KELD: height 20 m: it finds no place in the text, or several",
    ]);
  });

  test("a hop by its sites, either way round", async () => {
    const out = design(TEXT);
    const { changed } = await importInto(
      out,
      csv("site a,site b,height a (m),height b (m),pol\nFAR,Keld quarry,20,15,H\n"),
    );
    expect(changed[0]?.after).toContain(
      "hop KELD-FAR {\n  polarization horizontal\n  KELD { height 15 m }\n  FAR { height 20 m }\n}",
    );
  });

  test("sites that all lie one step off stand on another datum", async () => {
    const sites = ["47.5 -30.5", "47.6 -30.6", "47.7 -30.4"]
      .map((at, i) => `site S${i} { at ${at} }\n`)
      .join("");
    const { plan } = await importInto(
      design(sites),
      csv("site,lat,lon\nS0,47.501,-30.501\nS1,47.601,-30.601\nS2,47.701,-30.401\n"),
    );
    expect(plan?.remarks[0]).toMatch(
      /^all 3 sites that the design has lie about 13\d m northwest of where it has them/,
    );
  });
});

describe("what is not clear", () => {
  const unclear = async (text: string, more: object = {}) => {
    const imported = await importLists({
      files: [csv(text)],
      out: fresh("out"),
      title: "T",
      mapping: NO_MAPPING,
      ...more,
    });
    return imported.sheets.flatMap(({ list }) => list.unclear);
  };

  test.each([
    ["lat,lat.,lon,site\n1,2,3,A\n", /^both "lat" and "lat\." may hold the latitude/],
    ["site,easting,northing\nA,412345,5261234\n", /^"easting" is an easting: say of which system/],
    ["site,latitude,longitude\nA,144.7,13.4\nB,144.8,13.5\n", /^"latitude" holds 2 figures beyond 90/],
    ["site,latitude\nA,47\n", /^there is a column for the latitude and none for the longitude/],
    ["foo,bar\n1,2\n", /^no line of heads was found/],
  ])("%j", async (text, reason) => {
    expect((await unclear(text))[0]).toMatch(reason);
  });

  test("is decided by a code or a mapping", async () => {
    expect(await unclear("site,easting,northing\nA,412345,5261234\n", { epsg: 32632 })).toEqual([]);
    const mapping = readMapping(
      fileOf("map.json", '{ "rows": "sites", "columns": { "foo": "site", "bar": "position" } }'),
    );
    const { plan } = await importLists({
      files: [csv("foo,bar\nA,47.5 -30.5\n")],
      out: fresh("out"),
      title: "T",
      mapping,
    });
    expect(plan?.newSites).toMatchObject([
      { name: "A", facts: [{ word: "at", args: [{ text: "47.5 -30.5" }] }] },
    ]);
    expect(() => readMapping(fileOf("map.json", '{ "columns": { "foo": "nonsense" } }'))).toThrow(
      /nothing that a column can hold/,
    );
  });

  test("another datum costs the row, unless it is said to be none", async () => {
    const text = "site,lat,lon,datum\nA,47.5,-30.5,ED50\nB,47.6,-30.5,WGS84\n";
    const { plan } = await importInto(fresh("out"), csv(text));
    expect(plan?.newSites.map(({ name }) => name)).toEqual(["B"]);
    expect(plan?.told[0]?.reason).toContain("stands on the datum ED50");
    const taken = await importLists({
      files: [csv(text)],
      out: fresh("out"),
      title: "T",
      mapping: NO_MAPPING,
      takeDatum: true,
    });
    expect(taken.plan?.newSites.map(({ name }) => name)).toEqual(["A", "B"]);
  });
});

test("a workbook as a person has it: title, merged heads, units below them, a blank column, commas, a doubled row", async () => {
  const sites = [
    ["Standortliste, Stand März"],
    [],
    ["Nr.", "Standort", "", "Geogr. Breite", "Geogr. Länge", "Geländehöhe", "Mast", "Masthöhe", "Bemerkung"],
    ["", "", "", "", "", "m ü. NN", "", "m", ""],
    [
      1,
      "Altbach",
      "",
      `47° 12' 00,2" N`,
      `30° 15' 19,7" W`,
      "404,5",
      "Gittermast",
      28,
      "Zufahrt im Winter gesperrt",
    ],
    [],
    [2, "Bergdorf", "", "47 15 30 N", "30 20 00 W", "210", "Dach", "21,5", ""],
    [2, "Bergdorf", "", "47 15 30 N", "30 20 00 W", "210", "Dach", "21,5", ""],
    ["", "Summe", 2],
  ];
  const hops = [
    ["", "Standort A", "", "", "Standort B"],
    [
      "Link ID",
      "Name",
      "Antenne",
      "Höhe [m]",
      "Name",
      "Antenne",
      "Höhe [m]",
      "Frequenz A [GHz]",
      "Frequenz B [GHz]",
      "Pol",
      "Kapazität",
      "Modulation",
      "Bandbreite [MHz]",
      "Gerät",
    ],
    [
      "L-1",
      "Altbach",
      "0,6 m Parabol",
      "25,5",
      "BERGDORF",
      "0,6 m Parabol",
      18,
      17.7325,
      "18,7425",
      "V",
      "400 Mbit/s",
      "256 QAM",
      55,
      "RF 18 GHz",
    ],
  ];
  const book = XLSX.utils.book_new();
  XLSX.utils.book_append_sheet(book, XLSX.utils.aoa_to_sheet(sites), "Standorte");
  const sheet = XLSX.utils.aoa_to_sheet(hops);
  sheet["!merges"] = [
    { s: { r: 0, c: 1 }, e: { r: 0, c: 3 } },
    { s: { r: 0, c: 4 }, e: { r: 0, c: 6 } },
  ];
  XLSX.utils.book_append_sheet(book, sheet, "Strecken");
  XLSX.utils.book_append_sheet(book, XLSX.utils.aoa_to_sheet([["Notizen"], ["bitte prüfen"]]), "Notizen");
  const imported = await importInto(
    fresh("out"),
    fileOf("netz.xlsx", XLSX.write(book, { type: "buffer", bookType: "xlsx" })),
  );
  const text = (path: string) => imported.newFiles.find((file) => file.path === path)?.text;
  expect(text("sites.hop")).toBe(`site Altbach {
  at 47°12'00.2"N 30°15'19.7"W
  ground 404.5 m
  structure tower 28 m
}

site Bergdorf {
  at 47°15'30"N 30°20'00"W
  ground 210 m
  structure roof 21.5 m
}
`);
  expect(text("hops.hop")).toBe(`hop L-1 {
  polarization vertical
  radio RF-18-GHz
  mode 55 MHz 256QAM
  Altbach {
    antenna 0.6-m-Parabol at 25.5 m
    transmits 17.7325 GHz
  }
  Bergdorf {
    antenna 0.6-m-Parabol at 18 m
    transmits 18.7425 GHz
  }
}
`);
  expect(text("catalogue/antennas.hop")).toBe("antenna 0.6-m-Parabol {\n  diameter 0.6 m\n}\n");
  expect(text("catalogue/radios.hop")).toBe("radio RF-18-GHz {\n  mode 55 MHz 256QAM rate 400 Mbit/s\n}\n");
  expect(imported.plan?.told.map(({ from, what, reason }) => `${from.line} ${what}: ${reason}`)).toEqual([
    "8 remark: Bergdorf stands in line 7 already; of this row counts what that one leaves open",
    "9 row: the site Summe is in no list and not in the design, and the row does not say where it is",
  ]);
});

test("maps: GPX waypoints and routes, and longer lines told", async () => {
  const gpx = `<?xml version="1.0"?><gpx version="1.1" xmlns="http://www.topografix.com/GPX/1/1">
<wpt lat="47.5" lon="-30.5"><ele>412</ele><name>KELD</name></wpt><wpt lat="47.6" lon="-30.4"><name>TARN</name></wpt>
<rte><name>KELD-TARN</name><rtept lat="47.5" lon="-30.5"/><rtept lat="47.6" lon="-30.4"/></rte>
<rte><rtept lat="1" lon="1"/><rtept lat="2" lon="2"/><rtept lat="3" lon="3"/></rte><trk/></gpx>`;
  const { plan, sheets } = await importInto(fresh("out"), fileOf("a.gpx", gpx));
  expect(plan?.newSites.map(({ name }) => name)).toEqual(["KELD", "TARN"]);
  expect(plan?.newHops.map(({ name }) => name)).toEqual(["KELD-TARN"]);
  expect(sheets[0]?.sheet.notes.join()).toMatch(
    /lines of 3 points.*1 tracks are not taken|1 tracks are not taken.*lines of 3 points/,
  );
});

describe("what is said to be read stands somewhere, or is told", () => {
  const SITES = "site,latitude,longitude\nA,47.5,-30.5\nB,47.6,-30.5\nC,47.7,-30.5\n";
  const hops = async (heads: string, ...rows: string[]) => {
    const text = `site a,site b,${heads}\n${rows.map((row) => `${row}\n`).join("")}`;
    return (await importInto(fresh("out"), csv(SITES), csv(text))).plan!;
  };

  test.each([
    ["bandwidth", "28", "the channel width of 2 hops is stated nowhere"],
    ["channel width", "28", "the channel width of 2 hops is stated nowhere"],
    ["modulation", "128QAM", "the modulation of 2 hops is stated nowhere"],
    ["capacity", "100", "the bit rate of 2 hops is stated nowhere"],
    ["feeder length a", "12", "the feeder length of 2 ends is stated nowhere"],
    ["mounting b", "direct", "the mounting of 2 ends is stated nowhere"],
  ])("%s alone is told once, with the count", async (head, cell, words) => {
    const { remarks, newHops } = await hops(head, `A,B,${cell}`, `B,C,${cell}`);
    expect(remarks).toEqual([expect.stringContaining(words)]);
    expect(JSON.stringify(newHops)).not.toContain(cell);
  });

  test("with what it goes with nothing is left over", async () => {
    expect((await hops("bandwidth,modulation", "A,B,28,128QAM")).remarks).toEqual([]);
    expect((await hops("radio,bandwidth,modulation,capacity", "A,B,R,28,128QAM,100")).remarks).toEqual([]);
    expect((await hops("feeder a,feeder length a", "A,B,FLEX,12")).remarks).toEqual([]);
  });

  test.each(["antenna height a", "diversity height a", "feeder length a"])(
    "a negative %s is told, and not taken",
    async (head) => {
      const { told, newHops } = await hops(`antenna a,${head}`, "A,B,DISH60-18,-5");
      expect(told).toMatchObject([{ what: "cell", from: { line: 2 } }]);
      expect(told[0]?.reason).toContain("-5 is below zero");
      expect(JSON.stringify(newHops)).not.toContain("-5");
    },
  );

  test("notations that stand beside each other are both named", async () => {
    const text = `site,latitude,longitude\nA,47.5,-30.5\nB,"47°36'00""N","30°30'00""W"\nC,47.7,-30.5\n`;
    const { sheets } = await importInto(fresh("out"), csv(text));
    expect(sheets[0]?.list.read.find(({ head }) => head === "latitude")?.as).toBe(
      "latitude, decimal degrees in 2 rows and degrees, minutes and seconds in 1 row",
    );
  });

  test("Height beside the kind of a structure is the structure's; alone, or an antenna's, it is passed over", async () => {
    const plan = async (heads: string, row: string) =>
      (await importInto(fresh("out"), csv(`site,latitude,longitude,${heads}\nA,47.5,-30.5,${row}\n`))).plan!;
    for (const head of ["Height (m)", "height", "Höhe [m]", "height_m", "Hgt, m"])
      expect(
        JSON.stringify((await plan(`Structure,"${head}"`, "mast,35")).newSites[0]?.facts),
        head,
      ).toContain('"35 m"');
    expect(JSON.stringify((await plan("Height (m)", "35")).newSites)).not.toContain("35");
    expect(JSON.stringify((await plan("Structure,Antenna height", "mast,35")).newSites)).not.toContain(
      "35 m",
    );
    expect(
      JSON.stringify((await plan("Structure,Height,Structure height", "mast,35,40")).newSites[0]?.facts),
    ).toContain('"40 m"');
  });
});
