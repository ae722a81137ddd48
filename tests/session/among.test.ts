/** A hop judged among others that only send feels what it feels where all of them are judged. */
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { afterAll, beforeAll, expect, it } from "vitest";
import type { DesignModel } from "../../language/model/design-model.js";
import { readSource } from "../../language/model/source-file.js";
import { DesignSession } from "../../server/session/design-session.js";
import { loadProject } from "../../server/session/load.js";
import { openTerrain } from "../../server/terrain/store.js";
import { evaluateHop, geometryOf } from "../../shared/evaluate/hop.js";
import { feltBy, heardBy } from "../../shared/interference/in-touch.js";
import { files, hop } from "../compare/network.js";

const made = mkdtempSync(join(tmpdir(), "hopwright-among-"));
const SAMPLES = join(import.meta.dirname, "../../samples");

/** Two pairs on one channel each, and one hop whose power control lets it down. */
const ON_ONE_CHANNEL = [
  hop("KELD-TARN", "KELD", "TARN", 4),
  hop("FELL-MOSS", "FELL", "MOSS", 4, { more: "power-control 6 dB" }),
  hop("PEAK-TARN", "PEAK", "TARN", 5),
  hop("PEAK-MOSS", "PEAK", "MOSS", 5),
];

beforeAll(() => {
  for (const [path, text] of Object.entries({ ...files(), "hops/all.hop": ON_ONE_CHANNEL.join("\n") })) {
    mkdirSync(dirname(join(made, path)), { recursive: true });
    writeFileSync(join(made, path), text);
  }
});
afterAll(() => rmSync(made, { recursive: true, force: true }));

const fresh = (folder: string) =>
  new DesignSession(loadProject(folder.replaceAll("\\", "/")).project.designs()[0]!, { today: "2026-01-01" });

/** What comes in at the receivers of a hop; what lies below what counts takes a thousandth of a dB together. */
const felt = (session: DesignSession, name: string) =>
  session.interference.of(name).map(({ receiver, degradationDb, entries }) => ({
    receiver: receiver.key,
    degradationDb,
    strongest: entries[0]?.sender.key,
  }));

it.each([
  ["a network on few channels", made],
  ["a sample", join(SAMPLES, "eskerfold")],
])(
  "each hop of %s by itself, others as far as it hears them",
  async (_, folder) => {
    const whole = fresh(folder);
    await whole.update();
    let greatestDb = 0;
    for (const name of whole.model.names("hop")) {
      const among = fresh(folder);
      const own = new Set([name]);
      await among.updateAmong({}, own, heardBy(among.model.design(), own));
      expect([...among.results().keys()]).toEqual(whole.result(name) ? [name] : []);
      const wanted = felt(whole, name);
      expect(felt(among, name)).toEqual(
        wanted.map((one) => ({ ...one, degradationDb: expect.closeTo(one.degradationDb, 2) })),
      );
      greatestDb = Math.max(greatestDb, ...wanted.map(({ degradationDb }) => degradationDb));
    }
    // Otherwise nothing would be shown.
    if (folder === made) expect(greatestDb).toBeGreaterThan(1);
  },
  300_000,
);

it("which hops hear each other is told by the terms that the network states now, whatever it stated before", () => {
  const open = () => loadProject(made.replaceAll("\\", "/")).project.designs()[0]!;
  const edit = (model: DesignModel, ending: string, of: (text: string) => string) => {
    const { path, text } = [...model.allFiles()].find((one) => one.path.endsWith(ending))!;
    model.setFile(readSource(path, of(text)));
  };
  // Radios and antennas that keep silent of noise and pattern are as the network says.
  const silent = (model: DesignModel) =>
    edit(model, "catalogue.hop", (text) => text.replace(/\n *noise-figure .*/, ""));
  const state = (model: DesignModel, db: number) =>
    edit(model, "network.hop", (text) =>
      text.replace("climate {", `interference {\n    assumed-noise-figure ${db} dB\n  }\n  climate {`),
    );
  const restate = (model: DesignModel, db: number) =>
    edit(model, "network.hop", (text) => text.replace(/(assumed-noise-figure) \S+/, `$1 ${db}`));
  const touching = (model: DesignModel) =>
    model.names("hop").map((name) => {
      const one = new Set([name]);
      return [name, [...heardBy(model.design(), one)].sort(), [...feltBy(model.design(), one)].sort()];
    });
  const [edited, fresh] = [open(), open()];
  for (const model of [edited, fresh]) silent(model);
  state(edited, 0);
  const before = touching(edited);
  restate(edited, 20);
  state(fresh, 20);
  expect(touching(edited)).toEqual(touching(fresh));
  expect(touching(edited)).not.toEqual(before);
});

it("a fault in one that is only heard costs the others nothing", async () => {
  const model = loadProject(made.replaceAll("\\", "/")).project.designs()[0]!;
  const faulty: typeof openTerrain = async (...asked) => ({
    ...(await openTerrain(...asked)),
    heightAtSync: () => {
      throw new Error("a fault");
    },
  });
  const session = new DesignSession(model, { today: "2026-01-01", openTerrain: faulty });
  const own = new Set(["KELD-TARN"]);
  const heard = heardBy(model.design(), own);
  expect(heard.size).toBeGreaterThan(0);
  await session.updateAmong({}, own, heard);
  expect(session.result("KELD-TARN")!.result.directions).toHaveLength(2);
  expect(session.interference.problem).toBeUndefined();
});

it("it is broken off among those that are only heard, and goes on from there", async () => {
  const own = new Set(["KELD-TARN"]);
  const whole = fresh(made);
  const heard = heardBy(whole.model.design(), own);
  await whole.updateAmong({}, own, heard);
  const session = fresh(made);
  let pauses = 0;
  const pause = () => {
    pauses++;
    return undefined;
  };
  // One pause after its own hop, the next after the first that is heard.
  await session.updateAmong({ pause, isStale: () => pauses > 1 }, own, heard);
  expect(pauses).toBe(2);
  expect(session.interference.isComputed).toBe(false);
  await session.updateAmong({}, own, heard);
  expect(felt(session, "KELD-TARN")).toEqual(felt(whole, "KELD-TARN"));
  expect(session.result("KELD-TARN")).toEqual(whole.result("KELD-TARN"));
});

it.each([
  ["a network on few channels", made],
  ["a sample", join(SAMPLES, "eskerfold")],
])(
  "where the antennas of %s stand and look needs the ends of the ground alone",
  async (_, folder) => {
    const session = fresh(folder);
    await session.update();
    expect(session.results().size).toBeGreaterThan(3);
    for (const { hop: one, result } of session.results().values()) {
      const [from, to] = one.ends.map(({ site }) => site.position!);
      const terrain = session.terrain()!;
      // As the hops that are only heard have it: two heights, and no path between them.
      const atEnds = {
        groundM: [await terrain.heightAt(from!), await terrain.heightAt(to!)],
        profileKind: "terrain",
      } as const;
      if (one.surveyFile !== undefined) continue;
      expect(result.geometry).toBeDefined();
      expect(geometryOf(one, atEnds)).toEqual(result.geometry);
      expect(geometryOf(one, await session.groundOf(one))).toEqual(
        evaluateHop(one, await session.groundOf(one)).geometry,
      );
    }
  },
  300_000,
);
