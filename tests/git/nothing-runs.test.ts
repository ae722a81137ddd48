/**
 * A repository is a stranger's: comparing starts none of the programs that it names, in the command line and in the
 * server. That plain git starts each of them is tried too, after all was asked.
 */
import { mkdtempSync, realpathSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { COMPARE, type CompareParams, type CompareResult } from "../../server/lsp/protocol.js";
import { type Ran, run } from "../cli/built.js";
import { TODAY } from "../compare/repository.js";
import { Editor } from "../protocol/client.js";
import {
  bareAmongFiles,
  borrowing,
  configured,
  partialClone,
  type Scene,
  secondWorkTree,
  submodule,
  withInner,
} from "./traps.js";

const MAKERS = { configured, partialClone, borrowing, bareAmongFiles, withInner, submodule, secondWorkTree };
type Name = keyof typeof MAKERS;
const NAMES = Object.keys(MAKERS) as Name[];

interface Asked {
  readonly scene: Scene;
  readonly diff: Ran;
  readonly commits: Ran;
  readonly history: Ran;
  readonly sheets: Ran;
  readonly report: Ran;
  readonly compared: CompareResult;
  /** Programs that were started by any of these. */
  readonly started: readonly string[];
}

const top = realpathSync(mkdtempSync(join(tmpdir(), "hopwright-traps-")));
const asked = new Map<Name, Asked>();
let editor: Editor;

beforeAll(async () => {
  const designs = join(top, "designs");
  const scenes = NAMES.map((name) => MAKERS[name](join(designs, name), join(top, "programs", name)));
  for (const { traps } of scenes) for (const trap of traps) trap.forget();
  editor = await Editor.start(designs);
  for (const [index, scene] of scenes.entries()) {
    const { folder, traps } = scene;
    const cwd = folder;
    const uri = editor.uri(`${folder.slice(designs.length + 1)}/network.hop`);
    const params: CompareParams = { uri, revision: "before" };
    asked.set(NAMES[index]!, {
      scene,
      diff: run(["diff", "before", "--today", TODAY], { cwd }),
      commits: run(["diff", "before", "after", "--today", TODAY], { cwd }),
      history: run(["history", "FELL-TARN", "--today", TODAY], { cwd }),
      sheets: run(["sheets", "--out", join(top, "papers", NAMES[index]!)], { cwd }),
      report: run(["report", "--hop", "FELL-TARN", "--out", join(top, "pages", NAMES[index]!)], { cwd }),
      compared: await editor.connection.sendRequest<CompareResult>(COMPARE, params),
      started: traps.filter(({ started }) => started).map(({ name }) => name),
    });
  }
}, 600_000);

afterAll(async () => {
  await editor?.stop();
  rmSync(top, { recursive: true, force: true });
}, 60_000);

describe.each(NAMES)("%s", (name) => {
  test("all was answered, and nothing was started", () => {
    const { scene, diff, commits, history, compared, started } = asked.get(name)!;
    expect(started).toEqual([]);
    for (const ran of [diff, commits, history]) {
      expect(ran.stderr).not.toContain("fault of hopwright");
      if (!scene.told) {
        const leftOut = ran === history && name === "withInner";
        expect(ran.stderr).toMatch(leftOut ? /^warning: known is a repository of its own [^\n]*\n$/ : /^$/);
        expect(ran.stdout).toMatch(/FELL-TARN|second/);
      } else {
        expect(ran.status).toBe(2);
        expect(ran.stderr).toMatch(/^error: [^\n]+\n$/);
        expect(ran.stderr).toMatch(scene.told);
      }
    }
    if (scene.told) expect(compared.problem).toMatch(scene.told);
    else expect(compared.html).toContain("Changes of Change");
  });

  test("sheets and pages are written all the same", () => {
    const { sheets, report } = asked.get(name)!;
    for (const { stderr } of [sheets, report]) {
      expect(stderr).not.toContain("fault of hopwright");
      expect(stderr).toMatch(/[1-9]\d* (sheets?|pages?) written to/);
    }
  });

  test("plain git starts each program that lies there", () => {
    const { scene } = asked.get(name)!;
    expect(scene.traps.filter((trap) => !trap.springs()).map((trap) => trap.name)).toEqual([]);
  }, 300_000);
});
