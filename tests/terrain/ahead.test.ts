/** A profile read ahead by the other side is the one that the store itself would have read. */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { MessageChannel } from "node:worker_threads";
import { afterAll, describe, expect, it } from "vitest";
import { type AheadStore, type Channel, type Path, readAhead } from "../../server/terrain/ahead.js";
import { serveProfiles } from "../../server/terrain/serve-profiles.js";
import { openTerrain } from "../../server/terrain/store.js";

const TERRAIN = join(import.meta.dirname, "../../samples/terrain");
const folder = mkdtempSync(join(tmpdir(), "hopwright-ahead-"));
const open: AheadStore[] = [];
afterAll(() => {
  for (const store of open) store.end();
  rmSync(folder, { recursive: true });
});

async function pair(roots: readonly string[]): Promise<AheadStore> {
  const { port1, port2 } = new MessageChannel();
  serveProfiles(port2, openTerrain(roots));
  const channel: Channel = {
    ask: (paths) => port1.postMessage(paths),
    onAnswer: (listener) => void port1.on("message", listener),
    onFailure: () => {},
    end: () => port1.close(),
  };
  const store = readAhead(await openTerrain(roots), channel);
  open.push(store);
  return store;
}

/** Within the sample's tile, the third the same as the first. */
function somePaths(): Path[] {
  const at = (up: number, right: number) => ({ latitudeDeg: 47 + up, longitudeDeg: -31 + right });
  return [
    [at(0.3, 0.3), at(0.35, 0.42)],
    [at(0.5, 0.5), at(0.52, 0.47)],
    [at(0.3, 0.3), at(0.35, 0.42)],
  ];
}

describe("a store that is read ahead", () => {
  it("hands out what the store would read, also to two hops of one path", async () => {
    const paths = somePaths();
    const alone = await openTerrain([TERRAIN]);
    const store = await pair([TERRAIN]);
    store.ask(paths);
    expect(store.profileSync(...paths[0]!)).toBeUndefined();
    for (const [from, to] of paths) {
      expect(await store.profile(from, to)).toEqual(await alone.profile(from, to));
    }
    expect(store.stats().tilesRead).toBe(0);
  });

  it("reads by itself what nobody asked for, and everything once the thread is gone", async () => {
    const [first, second] = somePaths();
    const store = await pair([TERRAIN]);
    store.ask([first!]);
    expect(Number.isFinite((await store.profile(...second!)).heightM[0])).toBe(true);
    const waiting = store.profile(...first!);
    store.end();
    expect(Number.isFinite((await waiting).heightM[0])).toBe(true);
    store.ask([second!]);
    expect(Number.isFinite((await store.profile(...second!)).heightM[0])).toBe(true);
  });

  it("tells of files that turn out unreadable on the other side, each once", async () => {
    const tile = join(folder, "N10E010.hgt.gz");
    // The last bytes tell a whole tile's size, so only reading it shows that it is none.
    const bytes = readFileSync(join(TERRAIN, "N47W031.hgt.gz"));
    writeFileSync(tile, bytes.fill(0xff, 20, 400));
    const store = await pair([folder]);
    const path: Path = [
      { latitudeDeg: 10.2, longitudeDeg: 10.2 },
      { latitudeDeg: 10.3, longitudeDeg: 10.4 },
    ];
    store.ask([path]);
    const profile = await store.profile(...path);
    expect(profile.gaps).toHaveLength(1);
    await store.profile(path[1], path[0]);
    expect(store.problems).toHaveLength(1);
    expect(store.problems[0]!.message).toContain("gzip");
  });
});
