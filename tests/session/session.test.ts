/** A session evaluates what an edit touches and nothing else, and ends with what a cold check finds. */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import fc from "fast-check";
import { beforeEach, describe, expect, it, vi } from "vitest";
import type { TextEdit } from "../../language/editor/text-range.js";
import { DesignModel } from "../../language/model/design-model.js";
import { readSource } from "../../language/model/source-file.js";
import { DesignSession } from "../../server/session/design-session.js";
import { loadProject } from "../../server/session/load.js";
import { tryEdits } from "../../server/session/trial.js";
import type { Finding } from "../../shared/design/finding.js";

const SAMPLE = join(import.meta.dirname, "../../samples/eskerfold").replaceAll("\\", "/");
const CATALOGUE = join(SAMPLE, "../catalogue").replaceAll("\\", "/");
const TODAY = "2026-01-01";

let model: DesignModel;
let session: DesignSession;

beforeEach(async () => {
  model = loadProject(SAMPLE).project.designs()[0]!;
  session = new DesignSession(model, { today: TODAY });
  await session.update();
  session.updateNetwork();
});

function edit(path: string, change: (text: string) => string): void {
  const text = model.file(path)!.text;
  const changed = change(text);
  expect(changed).not.toBe(text);
  model.setFile(readSource(path, changed));
}

/** Everything a session would show, without its order. */
function shown(of: DesignSession): string[] {
  const findings = [...of.results().values()].flatMap(({ result, findings }) => [
    JSON.stringify(result),
    ...findings.map((one) => JSON.stringify(one)),
  ]);
  return [...findings, ...of.networkFindings().map((one) => JSON.stringify(one))].sort();
}

describe("an edit", () => {
  it("of one height evaluates one hop and reads no tile", async () => {
    const before = { evaluations: session.evaluations, tiles: session.terrain()!.stats().tilesRead };
    edit(`${SAMPLE}/hops/ring.hop`, (text) => text.replace("at 22 m", "at 23 m"));
    const changed = await session.update();
    expect([...changed]).toEqual(["HIGHFOLD-OSTREL"]);
    expect(session.evaluations - before.evaluations).toBe(1);
    expect(session.terrain()!.stats().tilesRead).toBe(before.tiles);
  });

  it("that moves lines or adds comments evaluates nothing", async () => {
    const before = session.evaluations;
    edit(`${SAMPLE}/hops/ring.hop`, (text) => `// a comment\n\n${text}`);
    expect([...(await session.update())]).toEqual([]);
    expect(session.evaluations).toBe(before);
  });

  it("of a radio evaluates the hops that use it", async () => {
    const before = session.evaluations;
    edit(`${CATALOGUE}/radios.hop`, (text) =>
      text.replace(/(radio R18 [\s\S]*?overload )-?\d+ dBm/, "$1-31 dBm"),
    );
    const changed = await session.update();
    const users = [...session.results().values()]
      .filter(({ hop }) => hop.radio?.name === "R18")
      .map(({ hop }) => hop.name);
    expect([...changed].sort()).toEqual(users.sort());
    expect(session.evaluations - before).toBe(users.length);
  });

  it("of the network's climate evaluates every hop without a climate of its own", async () => {
    const before = session.evaluations;
    edit(`${SAMPLE}/network.hop`, (text) => text.replace(/rain \d+ mm\/h/, "rain 77 mm/h"));
    await session.update();
    expect(session.evaluations - before).toBe(model.names("hop").length);
  });

  it("that is undone gives the same results", async () => {
    const before = shown(session);
    const path = `${SAMPLE}/sites.hop`;
    const text = readFileSync(path, "utf8");
    edit(path, (now) => now.replace(/site OSTREL/, "site OSTRELL"));
    await session.update();
    session.updateNetwork();
    expect(session.result("HIGHFOLD-OSTREL")).toBeUndefined();
    model.setFile(readSource(path, text));
    await session.update();
    session.updateNetwork();
    expect(shown(session)).toEqual(before);
  });
});

describe("any sequence of edits", () => {
  /** Places in the sample's files where a word is struck, doubled or changed. */
  const step = fc.record({
    path: fc.constantFrom(
      ...["sites.hop", "network.hop", "hops/ring.hop", "hops/tails.hop"].map((file) => `${SAMPLE}/${file}`),
      ...["antennas.hop", "radios.hop"].map((file) => `${CATALOGUE}/${file}`),
    ),
    at: fc.double({ min: 0, max: 1, noNaN: true }),
    what: fc.constantFrom("strike word", "change digit", "strike line", "add brace", "add line"),
  });

  it("leaves what a cold check of the same texts finds", async () => {
    await fc.assert(
      fc.asyncProperty(fc.boolean(), fc.array(step, { minLength: 1, maxLength: 5 }), async (wet, steps) => {
        const edited = loadProject(SAMPLE).project.designs()[0]!;
        // So much rain that most hops miss what is asked, and advice is tried with the catalogue.
        if (wet) soak(edited);
        const kept = new DesignSession(edited, { today: TODAY });
        await kept.update();
        for (const { path, at, what } of steps) {
          edited.setFile(readSource(path, disturbed(edited.file(path)!.text, at, what)));
          await kept.update();
          kept.updateNetwork();
        }
        const fresh = loadProject(SAMPLE).project.designs()[0]!;
        for (const { path, text } of edited.allFiles()) fresh.setFile(readSource(path, text));
        const cold = new DesignSession(fresh, { today: TODAY });
        await cold.update();
        cold.updateNetwork();
        kept.updateNetwork();
        expect(shown(kept)).toEqual(shown(cold));
        for (const { path } of edited.allFiles())
          expect(edited.problemsOf(path)).toEqual(fresh.problemsOf(path));
      }),
      { numRuns: 20 },
    );
  });
});

function soak(of: DesignModel): void {
  const path = `${SAMPLE}/network.hop`;
  of.setFile(readSource(path, of.file(path)!.text.replace(/rain \d+ mm\/h/, "rain 90 mm/h")));
}

describe("advice that was tried with the catalogue", () => {
  const helpOf = (hop: string) =>
    session.result(hop)!.findings.find(({ rule }) => rule === "availability")?.help ?? "";
  const stockOf = (hop: string) => session.result(hop)!.stock!.antennas.map(({ name }) => name);
  // Invented: enough at one end in the heaviest rain, and not so much that the receivers are overloaded.
  const LARGE =
    "antenna DISH-38-X like DISH60-38 {\n  diameter 1.6 m\n  gain 53 dBi\n  direct-mounting yes\n}\n";

  it("follows the catalogue, and nothing else is evaluated for it", async () => {
    soak(model);
    await session.update();
    const wet = [...session.results().values()].filter(({ stock }) => stock !== undefined);
    expect(wet.length).toBeGreaterThan(0);
    const of38 = wet.find(({ hop }) => Math.abs(hop.ends[0].transmitFrequencyHz! - 38e9) < 2e9)!.hop.name;
    const before = { help: helpOf(of38), evaluations: session.evaluations };
    edit(`${CATALOGUE}/antennas.hop`, (text) => `${text}\n${LARGE}`);
    const changed = await session.update();
    expect(changed).toContain(of38);
    expect(stockOf(of38)).toContain("DISH-38-X");
    expect(helpOf(of38)).not.toBe(before.help);
    expect(helpOf(of38)).toContain("DISH-38-X");
    for (const name of changed)
      expect(session.result(name)!.hop.ends[0].transmitFrequencyHz, name).toBeGreaterThan(36e9);
    expect(session.evaluations - before.evaluations).toBe(changed.size);
    edit(`${CATALOGUE}/antennas.hop`, (text) => text.replace(`\n${LARGE}`, ""));
    await session.update();
    expect(helpOf(of38)).toBe(before.help);
    expect(stockOf(of38)).not.toContain("DISH-38-X");
  });

  it("costs hops that have nothing to mend nothing", async () => {
    const before = session.evaluations;
    edit(`${CATALOGUE}/antennas.hop`, (text) => `${text}\n${LARGE}`);
    expect([...(await session.update())]).toEqual([]);
    expect(session.evaluations).toBe(before);
  });
});

function disturbed(text: string, at: number, what: string): string {
  const offset = Math.floor(at * text.length);
  const lineStart = text.lastIndexOf("\n", offset) + 1;
  const lineEnd = (text.indexOf("\n", offset) + text.length + 1) % (text.length + 1);
  switch (what) {
    case "strike word":
      return text.slice(0, offset) + text.slice(offset).replace(/[\w.-]+/, "");
    case "change digit":
      return (
        text.slice(0, offset) + text.slice(offset).replace(/\d/, (digit) => String((Number(digit) + 1) % 10))
      );
    case "strike line":
      return text.slice(0, lineStart) + text.slice(lineEnd);
    case "add brace":
      return `${text.slice(0, offset)}{${text.slice(offset)}`;
    default:
      return `${text.slice(0, lineStart)}hop NEW-HOP { OSTREL { antenna DISH60-18 at 10 m }; LARKHOWE {} }\n${text.slice(lineStart)}`;
  }
}

describe("a trial of an edit", () => {
  const RING = `${SAMPLE}/hops/ring.hop`;
  const HOP = "HIGHFOLD-OSTREL";

  /** The edit that writes another height at the first antenna of the ring. */
  function height(heightM: number): TextEdit {
    const start = model.file(RING)!.text.indexOf("22 m");
    return { file: RING, start, end: start + 4, newText: `${heightM} m` };
  }

  const onHop = (findings: readonly Finding[]) =>
    findings.filter(({ at }) => at.startsWith(`hop ${HOP}`)).map((one) => JSON.stringify(one));

  it("tells what the edit would bring, and leaves the design and its results alone", async () => {
    const before = shown(session);
    const { findings: tried } = await tryEdits(session, [height(90)], [HOP]);
    expect(tried.map(({ rule }) => rule)).toContain("antenna-above-structure");
    expect(shown(session)).toEqual(before);
    expect([...session.waiting()]).toEqual([]);
    edit(RING, (text) => text.replace("22 m", "90 m"));
    await session.update();
    session.updateNetwork();
    expect(onHop(tried)).toEqual(onHop([...session.result(HOP)!.findings, ...session.networkFindings()]));
  });

  it("does not see another one that runs at the same time, nor one before it", async () => {
    const [{ findings: low }, { findings: high }] = await Promise.all([
      tryEdits(session, [height(90)], [HOP]),
      tryEdits(session, [height(22)], [HOP]),
    ]);
    expect(low.map(({ rule }) => rule)).toContain("antenna-above-structure");
    expect(high.map(({ rule }) => rule)).not.toContain("antenna-above-structure");
    expect(onHop((await tryEdits(session, [height(90)], [HOP])).findings)).toEqual(onHop(low));
  });

  it("puts in the edited file and takes it back, and no other", async () => {
    await tryEdits(session, [height(30)], [HOP]);
    const put = vi.spyOn(DesignModel.prototype, "setFile");
    await tryEdits(session, [height(31)], [HOP]);
    expect(put.mock.calls.map(([file]) => file.path)).toEqual([RING, RING]);
    put.mockRestore();
  });

  it("follows the design: what was edited since counts", async () => {
    await tryEdits(session, [height(30)], [HOP]);
    edit(`${SAMPLE}/network.hop`, (text) => text.replace(/rain \d+ mm\/h/, "rain 140 mm/h"));
    await session.update();
    const { findings: tried } = await tryEdits(session, [height(30)], [HOP]);
    expect(tried.map(({ rule, at }) => `${rule} ${at}`)).toContain(`availability hop ${HOP}`);
  });
});

it("a fault in one hop is told there, and the others are judged", async () => {
  const real = session.terrain()!;
  const fails = session.result("HIGHFOLD-OSTREL")!.hop.ends[1].site.position!;
  const faulty = new DesignSession(loadProject(SAMPLE).project.designs()[0]!, {
    today: TODAY,
    openTerrain: async () => ({
      ...real,
      profileSync: (from, to, options) => {
        if (to.latitudeDeg === fails.latitudeDeg) throw new Error("a fault of ours");
        return real.profileSync(from, to, options);
      },
    }),
  });
  await faulty.update();
  faulty.updateNetwork();
  expect([...faulty.results().keys()]).toEqual([...session.results().keys()]);
  expect(faulty.waiting().size).toBe(0);
  expect(faulty.result("HIGHFOLD-OSTREL")!.findings).toMatchObject([
    { rule: "internal-fault", severity: "error", message: expect.stringContaining("a fault of ours") },
  ]);
  expect(faulty.result("LARKHOWE-GULLSCAR")!.result).toEqual(session.result("LARKHOWE-GULLSCAR")!.result);
});
