/** Which design judges a document: that of the folder it lies in, wherever it comes from and however it was opened. */
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { afterAll, beforeEach, describe, expect, test } from "vitest";
import { statusOf } from "../../server/lsp/status.js";
import { shownFrom } from "./shown.js";

const base = mkdtempSync(join(tmpdir(), "hopwright-membership-")).replaceAll("\\", "/");
afterAll(() => rmSync(base, { recursive: true, force: true }));
beforeEach(() => {
  for (const folder of ["work", "other", ".git"])
    rmSync(join(base, folder), { recursive: true, force: true });
});

function write(file: string, text: string): string {
  const path = `${base}/${file}`;
  mkdirSync(dirname(path), { recursive: true });
  writeFileSync(path, text);
  return path;
}

const NETWORK = 'network "Main" { objective o { availability 99 % } }\n';
const SITES = "site A { at 47 -30 }\nsite B { at 47 -30.1 }\n";
const FAR = "site A { at 47 -30.4 }\n";
const HOP = "hop H { A {}; B {} }\n";

/** What is shown after everything has settled. */
function opened(...folders: readonly string[]) {
  const { designs, shown, settled } = shownFrom(...folders.map((folder) => `${base}/${folder}`));
  const lengthM = (path: string) => designs.sessionsOf(path)[0]?.result("H")?.result.distanceM;
  const standing = (path: string) => {
    const uri = path.startsWith("untitled:") ? path : `file://${path}`;
    const judging = statusOf(designs, 0).designs.filter(({ documents }) => documents.includes(uri));
    return judging.map((design) => `${design.standing} ${design.title}`);
  };
  return { designs, shown, settled, lengthM, standing };
}

/** The main design, 7.6 km long as it stands. */
function writeMain() {
  const network = write("work/network.hop", NETWORK);
  const sites = write("work/sites.hop", SITES);
  const hops = write("work/hops/h.hop", HOP);
  return { network, sites, hops };
}

describe("no document changes a design that it is no part of", () => {
  test.each([
    ["from elsewhere", "other/a.hop"],
    ["of a local history", "work/.history/a.hop"],
    ["of a dependency", "work/node_modules/part/a.hop"],
    ["of another working tree", "work/.trees/next/a.hop"],
  ])("%s, opened, changed on disk and closed", async (_case, file) => {
    const { hops } = writeMain();
    const stray = write(file, FAR);
    const { designs, settled, lengthM, standing, shown } = opened("work");
    await settled();
    const before = lengthM(hops)!;
    const same = async () => {
      await settled();
      expect(lengthM(hops)).toBe(before);
      expect(shown.get(hops)?.filter((message) => message.includes("twice")) ?? []).toEqual([]);
    };
    designs.edit(stray, FAR);
    await same();
    expect(standing(stray)).toEqual(["alone a.hop"]);
    write(file, `${FAR}site B { at 48 -30 }\n`);
    designs.changedOnDisk(stray);
    await same();
    designs.close(stray);
    designs.changedOnDisk(stray);
    await same();
    expect(designs.allSessions()).toHaveLength(1);
    expect(designs.file(stray)).toBeUndefined();
  });

  test("a document that is not saved is judged with a copy, and has what the design has", async () => {
    const { hops, sites } = writeMain();
    const { designs, settled, lengthM, standing, shown } = opened("work");
    const unsaved = "untitled:Untitled-1";
    designs.edit(unsaved, "hop NEW { objective o; B {}; C {} }\nsite C { at 47 -30.2 }\n");
    await settled();
    const { model } = designs.sessionsOf(unsaved)[0]!;
    expect(model.names("site")).toEqual(["A", "B", "C"]);
    expect(designs.sessionsOf(unsaved)[0]!.result("NEW")!.result.distanceM).toBeGreaterThan(7000);
    expect(shown.get(unsaved)!.some((message) => message.includes("not judged"))).toBe(true);
    expect(designs.sessionsOf(hops)[0]!.model.names("site")).toEqual(["A", "B"]);
    expect(standing(unsaved)).toEqual(["copy Main"]);
    // It follows the design; the design does not follow it.
    designs.edit(sites, SITES.replace("site B", "site BECK"));
    await settled();
    expect(shown.get(unsaved)!.some((message) => message.includes("there is no site B"))).toBe(true);
    expect(lengthM(hops)).toBeUndefined();
    designs.close(unsaved);
    await settled();
    expect(shown.get(unsaved)).toEqual([]);
  });
});

describe("the network found above judges what has none beside it", () => {
  test("a subfolder that is opened, and only its files are shown", async () => {
    const { hops, sites } = writeMain();
    write("work/sites.hop", `${SITES}nonsense\n`);
    const { designs, settled, lengthM, standing, shown } = opened("work/hops");
    designs.edit(hops, HOP);
    await settled();
    expect(lengthM(hops)).toBeGreaterThan(7000);
    expect(standing(hops)).toEqual(["above Main"]);
    expect(shown.get(sites)).toBeUndefined();
    designs.edit(sites, `${SITES}nonsense\n`);
    await settled();
    expect(shown.get(sites)).toEqual([expect.stringContaining("nonsense")]);
    designs.close(sites);
    await settled();
    expect(shown.get(sites)).toEqual([]);
    // A network of its own: the one above is let go.
    designs.edit(hops, `network "Own" {}\n${HOP}`);
    await settled();
    expect(standing(hops)).toEqual(["opened Own"]);
    expect(shown.get(hops)!.filter((message) => message.includes("there is no site"))).toHaveLength(2);
  });

  test("a single document of another design, as long as it is open", async () => {
    writeMain();
    write("other/network.hop", NETWORK.replace("Main", "Other"));
    write("other/sites.hop", SITES);
    const hop = write("other/hops/h.hop", HOP);
    const { designs, settled, lengthM, standing } = opened("work");
    designs.edit(hop, HOP);
    await settled();
    expect(lengthM(hop)).toBeGreaterThan(7000);
    expect(standing(hop)).toEqual(["above Other"]);
    designs.close(hop);
    await settled();
    expect(designs.allSessions().map(({ model }) => model.title())).toEqual(["Main"]);
  });

  test("three folders up outside a repository, all the way to the root of one in it, and no further", async () => {
    write("other/network.hop", NETWORK);
    write("other/sites.hop", SITES);
    const near = write("other/1/2/3/h.hop", HOP);
    const far = write("other/1/2/3/4/h.hop", HOP);
    const { designs, settled, standing } = opened();
    for (const [path, judging] of [
      [near, "above Main"],
      [far, "alone h.hop"],
    ] as const) {
      designs.edit(path, HOP);
      await settled();
      expect(standing(path)).toEqual([judging]);
      designs.close(path);
    }
    mkdirSync(`${base}/other/.git`);
    designs.edit(far, HOP);
    await settled();
    expect(standing(far)).toEqual(["above Main"]);
    designs.close(far);
    // The root of the repository is below the network: nothing of what lies above is its own.
    mkdirSync(`${base}/other/1/.git`);
    designs.edit(far, HOP);
    await settled();
    expect(standing(far)).toEqual(["alone h.hop"]);
  });

  test("a folder that is passed over is a border", async () => {
    writeMain();
    const past = write("work/.history/hops/h.hop", HOP);
    const { designs, settled, standing } = opened("work");
    designs.edit(past, HOP);
    await settled();
    expect(standing(past)).toEqual(["alone h.hop"]);
  });
});

test("folders that are opened later are designs like those at the start, and closed ones are gone", async () => {
  const { hops } = writeMain();
  const other = write("other/network.hop", `${NETWORK.replace("Main", "Other")}nonsense\n`);
  const { designs, shown, settled, standing } = opened("work");
  await settled();
  designs.setFolders([`${base}/work`, `${base}/other`]);
  await settled();
  expect(shown.get(other)).toEqual([expect.stringContaining("nonsense")]);
  designs.edit(other, NETWORK);
  await settled();
  expect(standing(other)).toEqual(["opened Main"]);
  designs.close(other);
  designs.setFolders([`${base}/other`]);
  await settled();
  expect(shown.get(hops)).toEqual([]);
  expect(designs.file(hops)).toBeUndefined();
  expect(shown.get(other)).toEqual([expect.stringContaining("nonsense")]);
});
