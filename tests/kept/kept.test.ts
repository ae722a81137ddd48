/** What is kept between runs: where it lies, that a wrong byte is nothing, and that with it everything is as without. */
import {
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  realpathSync,
  rmSync,
  symlinkSync,
  utimesSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import fc from "fast-check";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { readSource } from "../../language/model/source-file.js";
import { basisOf } from "../../server/kept/basis.js";
import { KeptResults } from "../../server/kept/kept-results.js";
import { bytesOf, sealed, unsealed, valueIn } from "../../server/kept/pack.js";
import { placeOf } from "../../server/kept/place.js";
import { DesignSession } from "../../server/session/design-session.js";
import { loadProject } from "../../server/session/load.js";
import { writeTiles } from "../bench/network/landscape.js";
import { networkText, writeNetwork } from "../bench/network/network.js";

let base: string;
beforeAll(() => {
  base = realpathSync(mkdtempSync(join(tmpdir(), "hopwright-kept-")));
});
afterAll(() => rmSync(base, { recursive: true, force: true }));

describe("its place", () => {
  const design = "/nets/one";

  test.each([
    ["linux", { XDG_CACHE_HOME: "/x" }, "/x/hopwright"],
    ["linux", { XDG_CACHE_HOME: "", HOME: "/home/a" }, "/home/a/.cache/hopwright"],
    // By the XDG base directories a path that is not absolute does not count.
    ["linux", { XDG_CACHE_HOME: "x", HOME: "/home/a" }, "/home/a/.cache/hopwright"],
    ["darwin", { XDG_CACHE_HOME: "/x", HOME: "/Users/a" }, "/Users/a/Library/Caches/hopwright"],
    ["win32", { LOCALAPPDATA: "/local" }, "/local/hopwright"],
  ] as const)("on %s with %j is %s", (platform, env, folder) => {
    expect(placeOf(design, env, platform)).toEqual({ folder: join(folder) });
  });

  test("is none where the user wants none", () => {
    const env = { XDG_CACHE_HOME: "/x", HOPWRIGHT_NO_CACHE: "1" };
    expect(placeOf(design, env, "linux")).toBeUndefined();
    expect(placeOf(design, { ...env, HOPWRIGHT_NO_CACHE: "0" }, "linux")).toBeDefined();
  });

  test("is never in a design, whether a variable points there or a link leads there", () => {
    const at = join(base, "design");
    mkdirSync(join(at, "deep"), { recursive: true });
    symlinkSync(join(at, "deep"), join(base, "link"));
    for (const cache of [at, join(at, "deep"), join(base, "link"), join(base, "link/not/there")])
      expect(placeOf(at, { XDG_CACHE_HOME: cache }, "linux"), cache).toEqual({
        problem: expect.stringContaining("lies within the design"),
      });
    expect(placeOf(at, { XDG_CACHE_HOME: join(base, "beside") }, "linux")).toEqual({
      folder: join(base, "beside/hopwright"),
    });
  });
});

test("a wrong byte, one too many and one too few are nothing", () => {
  const value = new Map([
    ["a", { heights: Float64Array.of(1, Number.NaN, -0), text: "\u00e4", none: undefined }],
  ]);
  const bytes = sealed(bytesOf(value));
  expect(valueIn(unsealed(bytes)!)).toEqual(value);
  fc.assert(
    fc.property(fc.nat(bytes.length - 1), fc.integer({ min: 1, max: 255 }), (at, by) => {
      const forged = Buffer.from(bytes);
      forged[at] = forged[at]! ^ by;
      expect(unsealed(forged)).toBeUndefined();
      expect(unsealed(bytes.subarray(0, at))).toBeUndefined();
      expect(unsealed(Buffer.concat([bytes, Buffer.of(by)]))).toBeUndefined();
    }),
  );
});

describe("a file of it", () => {
  const kept = { result: { distanceM: 1 }, findings: [] } as never;
  const one = (name: string, mostBytes?: number, basis = "b") =>
    new KeptResults(join(base, name), "/nets/one", basis, mostBytes);
  const filesOf = (name: string) =>
    readdirSync(join(base, name), { recursive: true, encoding: "utf8" }).filter((path) =>
      path.endsWith(".kept"),
    );
  const keep = (name: string, hops: readonly string[]) => {
    const results = one(name);
    for (const hop of hops) results.keep(hop, results.keyOf({ hop }), kept);
    results.end();
  };
  const taken = (name: string, hop: string, basis?: string) => {
    const results = one(name, undefined, basis);
    return results.take(hop, results.keyOf({ hop }));
  };

  test("is read by the next run, and by no other design, program or hop", () => {
    keep("read", ["A"]);
    expect(taken("read", "A")).toEqual(kept);
    expect(taken("read", "A", "another program")).toBeUndefined();
    const other = new KeptResults(join(base, "read"), "/nets/two", "b");
    expect(other.take("A", other.keyOf({ hop: "A" }))).toBeUndefined();
    const again = one("read");
    expect(again.take("A", again.keyOf({ hop: "A", height: 3 }))).toBeUndefined();
  });

  test("that is cut, altered or no such file is as good as none, and is written anew", () => {
    for (const spoil of [
      (bytes: Buffer) => bytes.subarray(0, 40),
      (bytes: Buffer) => bytes.fill(7, 50, 60),
      () => Buffer.from("no such file"),
      () => Buffer.alloc(0),
      // Whole, and something else.
      () => sealed(bytesOf("text")),
      () => sealed(bytesOf(new Map([[1, 2]]))),
      () => sealed(Buffer.of(1, 2, 3)),
    ]) {
      keep("spoilt", ["A"]);
      const path = join(base, "spoilt", filesOf("spoilt")[0]!);
      writeFileSync(path, spoil(readFileSync(path)));
      expect(taken("spoilt", "A")).toBeUndefined();
      keep("spoilt", ["A"]);
      expect(taken("spoilt", "A")).toEqual(kept);
    }
  });

  test("with an entry that is no value gives none", () => {
    keep("entry", ["A"]);
    const path = join(base, "entry", filesOf("entry")[0]!);
    const key = one("entry").keyOf({ hop: "A" });
    writeFileSync(path, sealed(bytesOf(new Map([[key, Uint8Array.of(9, 9, 9)]]))));
    expect(taken("entry", "A")).toBeUndefined();
  });

  test("may go at any time", () => {
    const results = one("gone");
    results.keep("A", "k", kept);
    results.end();
    rmSync(join(base, "gone"), { recursive: true });
    expect(results.take("B", "k")).toBeUndefined();
    results.end();
    expect(taken("gone", "A")).toBeUndefined();
  });

  test("goes when it was not used for longest and all are too large", () => {
    keep("aged", ["A", "B", "C", "D", "E"]);
    const paths = filesOf("aged").map((path) => join(base, "aged", path));
    expect(paths.length).toBeGreaterThan(2);
    paths.forEach((path, index) => {
      utimesSync(path, 1000 + index, 1000 + index);
    });
    const size = readFileSync(paths[0]!).length;
    one("aged", 2.5 * size).end();
    expect(filesOf("aged").map((path) => join(base, "aged", path))).toEqual(paths.slice(-2));
  });
});

test("terrain counts by its times and size, and not while it may still be written", async () => {
  const folder = join(base, "basis");
  mkdirSync(folder);
  const tile = join(folder, "N47W030.hgt");
  writeFileSync(tile, Buffer.alloc(100));
  const later = Date.now() + 60_000;
  expect(await basisOf([folder], base)).toBeUndefined();
  const before = await basisOf([folder], base, later);
  expect(await basisOf([folder], base, later)).toBe(before);
  // Times that are set back: the system still notes the change.
  await new Promise((done) => setTimeout(done, 20));
  writeFileSync(tile, Buffer.alloc(100, 1));
  utimesSync(tile, 1000, 1000);
  const after = await basisOf([folder], base, later);
  expect(after).not.toBe(before);
  writeFileSync(join(folder, "N47W031.hgt"), Buffer.alloc(100));
  expect(await basisOf([folder], base, later)).not.toBe(after);
});

describe("with it everything is as without", () => {
  const EDITS: readonly ((text: string, at: number) => string)[] = [
    (text, at) => nth(text, /( at )(\d+)( m)/g, at, (all) => all.replace(/\d+/, (m) => `${+m + 3}`)),
    (text, at) => nth(text, /\n {2}radio \S+/g, at, () => ""),
    (text, at) => nth(text, /threshold -\d+/g, at, (all) => `${all}.5`),
    (text, at) => nth(text, /rain 30/g, at, () => "rain 42"),
    (text, at) => nth(text, /transmits (high|low)/g, at, () => "transmits high"),
    (text, at) => nth(text, /polarization \w+/g, at, () => "polarization horizontal"),
  ];

  function nth(text: string, pattern: RegExp, at: number, by: (all: string) => string): string {
    const all = [...text.matchAll(pattern)];
    const one = all[at % Math.max(1, all.length)];
    return one === undefined
      ? text
      : text.slice(0, one.index) + by(one[0]) + text.slice(one.index + one[0].length);
  }

  const HOPS = 25;

  async function judgedOf(files: ReadonlyMap<string, string>, folder: string, kept?: KeptResults) {
    const { project } = loadProject(folder);
    project.setFiles([...files].map(([path, text]) => readSource(`${folder}/${path}`, text)));
    const session = new DesignSession(project.designs()[0]!, { today: "2026-01-01", kept });
    await session.update();
    session.updateNetwork();
    kept?.end();
    const hops = [...session.results()].map(([name, { result, findings }]) => [name, result, findings]);
    return { hops, network: session.networkFindings(), evaluations: session.evaluations };
  }

  test("after any edits, and with what was kept of states before", { timeout: 300_000 }, async () => {
    const folder = join(base, "net");
    writeTiles(join(base, "terrain"), 0.5);
    const first = networkText(HOPS, "../terrain");
    writeNetwork(folder, first);
    let run = 0;
    await fc.assert(
      fc.asyncProperty(
        fc.array(fc.tuple(fc.nat(EDITS.length - 1), fc.nat(), fc.nat()), { minLength: 1, maxLength: 4 }),
        async (edits) => {
          const at = join(base, `runs/${run++}`);
          const files = new Map(first);
          const keptOf = () => new KeptResults(at, folder, "b");
          await judgedOf(files, folder, keptOf());
          for (const [edit, place, which] of edits) {
            const paths = [...files.keys()];
            const path = paths[which % paths.length]!;
            files.set(path, EDITS[edit]!(files.get(path)!, place));
            const [warm, cold] = [await judgedOf(files, folder, keptOf()), await judgedOf(files, folder)];
            expect({ ...warm, evaluations: 0 }).toEqual({ ...cold, evaluations: 0 });
            expect(JSON.stringify(warm.hops)).toBe(JSON.stringify(cold.hops));
          }
        },
      ),
      { numRuns: 8 },
    );
  });

  test("most of an unchanged design is taken from it", async () => {
    const folder = join(base, "net");
    const files = networkText(HOPS, "../terrain");
    const taken: string[] = [];
    class Counting extends KeptResults {
      override take(name: string, key: string) {
        const found = super.take(name, key);
        if (found !== undefined) taken.push(name);
        return found;
      }
    }
    const keptOf = () => new Counting(join(base, "taken"), folder, "b");
    await judgedOf(files, folder, keptOf());
    expect(taken).toEqual([]);
    await judgedOf(files, folder, keptOf());
    expect(new Set(taken).size).toBeGreaterThan(HOPS / 2);
  });

  test("in every sample, read from it and made anew", { timeout: 300_000 }, async () => {
    const samples = join(import.meta.dirname, "../../samples");
    let taken = 0;
    for (const model of loadProject(samples).project.designs()) {
      const run = async (kept?: KeptResults) => {
        const session = new DesignSession(
          loadProject(samples)
            .project.designs()
            .find((one) => one.root === model.root)!,
          {
            today: "2026-01-01",
            kept,
          },
        );
        await session.update();
        session.updateNetwork();
        kept?.end();
        taken += session.results().size;
        const hops = [...session.results()].map(([name, { result, findings }]) => [name, result, findings]);
        return {
          hops,
          network: session.networkFindings(),
          interference: [...session.interference.ofOthers()],
        };
      };
      const keptOf = () => new KeptResults(join(base, "samples"), model.root, "b");
      const cold = await run();
      await run(keptOf());
      const warm = await run(keptOf());
      expect(warm).toEqual(cold);
      expect(JSON.stringify(warm)).toBe(JSON.stringify(cold));
    }
    expect(taken).toBeGreaterThan(20);
  });
});
