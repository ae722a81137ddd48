import { execFileSync } from "node:child_process";
import { mkdtempSync, rmSync, symlinkSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, describe, expect, test } from "vitest";
import { hopHistory } from "../../server/compare/hop-history.js";
import { repositoryOf, revisionOf } from "../../server/git/repository.js";
import { isEmpty } from "../../shared/compare/change-set.js";
import { files, hop, terrain } from "./network.js";
import { figuresTold, TestRepository, TODAY } from "./repository.js";

const made: TestRepository[] = [];

function repositoryWith(content: Readonly<Record<string, string>> = files()): TestRepository {
  const repository = TestRepository.create();
  made.push(repository);
  repository.write(content);
  repository.commit("base");
  return repository;
}

function below(folder: string, content: Readonly<Record<string, string>>): Record<string, string> {
  return Object.fromEntries(Object.entries(content).map(([path, text]) => [`${folder}/${path}`, text]));
}

afterEach(() => {
  for (const repository of made.splice(0)) repository.remove();
});

describe("revisions", () => {
  test("that do not exist are told with a remedy; of a shallow clone, that it is one", async () => {
    const repository = repositoryWith();
    repository.commit("second");
    const at = await repositoryOf(repository.root);
    await expect(revisionOf(at, "mian")).rejects.toThrow(/^mian: there is no such revision; git log/);
    await expect(revisionOf(at, "--output=x")).rejects.toThrow("there is no such revision");
    const clone = mkdtempSync(join(tmpdir(), "hopwright-clone-"));
    execFileSync("git", ["clone", "-q", "--depth", "1", `file://${repository.root}`, clone]);
    const shallow = await repositoryOf(clone);
    await expect(revisionOf(shallow, "HEAD~1")).rejects.toThrow(/this clone is shallow: fetch more/);
    const head = await revisionOf(shallow, "HEAD");
    expect(head.commit).toBe(repository.git("rev-parse", "HEAD"));
    rmSync(clone, { recursive: true, force: true });
  });

  test("are looked for in a git work tree only", async () => {
    const folder = mkdtempSync(join(tmpdir(), "hopwright-bare-"));
    await expect(repositoryOf(folder)).rejects.toThrow(/no git work tree/);
    rmSync(folder, { recursive: true, force: true });
  });

  test("may be merge commits: against the first parent all that the branch brought", async () => {
    const repository = repositoryWith();
    repository.git("checkout", "-q", "-b", "side");
    repository.edit("hops/south.hop", "DISH60-18", "DISH120-18");
    repository.commit("larger antennas");
    repository.git("checkout", "-q", "main");
    repository.edit("hops/north.hop", "P18 / 55 MHz / 6", "P18 / 55 MHz / 7");
    repository.commit("another channel");
    repository.git("merge", "-q", "--no-ff", "-m", "merge", "side");
    const first = await repository.changes("HEAD^1", "HEAD");
    expect(first.hops.map(({ hop }) => hop)).toEqual(["FELL-TARN"]);
    // Two antennas, 5.5 dB each.
    expect(figuresTold(first.hops[0]!)).toContainEqual(
      expect.stringMatching(/^Fade margin at \w+: \+11\.0 dB/),
    );
    const second = await repository.changes("HEAD^2", "HEAD");
    expect(second.hops.map(({ hop }) => hop)).toEqual(["KELD-MOSS"]);
    expect(second.licences.map(({ site, figures }) => [site, figures.map(({ label }) => label)])).toEqual([
      ["KELD", ["frequency"]],
      ["MOSS", ["frequency"]],
    ]);
  });
});

describe("a design that is new", () => {
  test("is told with what it uses of a catalogue, and not with all that stands there", async () => {
    const { "catalogue.hop": catalogue, ...design } = files();
    const spare = (more = "") => `${catalogue}\nantenna SPARE {\n  diameter 0.6 m\n}\n${more}`;
    const repository = repositoryWith({ "catalogue/all.hop": spare() });
    const network = design["network.hop"]!.replace("{\n", '{\n  catalogue "../catalogue"\n');
    repository.write(below("own", { ...design, "network.hop": network }));
    const told = async (was: string) => {
      const { designs } = await repository.compare(was, undefined, "own");
      return designs[0]!.changes.shared
        .filter(({ entry }) => /^(antenna|radio) /.test(entry))
        .map(({ entry, status }) => `${entry} ${status}`);
    };
    const first = await told("HEAD");
    expect(first).toContain("radio R18 added");
    expect(first).not.toContain("antenna SPARE added");
    repository.commit("the design");
    repository.write({ "catalogue/all.hop": spare("antenna OTHER {\n  diameter 0.9 m\n}\n") });
    expect(await told("HEAD")).toEqual(["antenna OTHER added"]);
  });
});

describe("sides", () => {
  test("the work tree counts as it lies, files not added to git too", async () => {
    const repository = repositoryWith();
    repository.edit("hops/south.hop", "at 40 m", "at 30 m");
    repository.write({ "hops/new.hop": hop("KELD-FELL", "KELD", "FELL", 10, { heightM: 45 }) });
    const { hops } = await repository.changes("HEAD");
    expect(hops.map(({ hop, status }) => `${status} ${hop}`).sort()).toEqual([
      "added KELD-FELL",
      "changed FELL-TARN",
    ]);
    expect(repository.git("status", "--porcelain").split("\n").sort()).toEqual([
      "?? hops/new.hop",
      "M hops/south.hop",
    ]);
  });

  test("a side that does not parse is judged as far as it goes, and that is said", async () => {
    const repository = repositoryWith();
    repository.edit(
      "hops/north.hop",
      "antenna DISH60-18 at 40 m\n    transmits low\n  }\n}\n",
      "antenna DISH60-18 at",
    );
    const { designs, notes } = await repository.compare("HEAD", undefined);
    expect(notes).toEqual([
      "the work tree has text that cannot be read in hops/north.hop; it is judged as far as it goes.",
    ]);
    expect(designs[0]!.changes.worse).toBe(true);
    const back = await repository.compare("HEAD", "HEAD");
    expect(back.notes).toEqual([]);
  });

  test("terrain that changed is read from git for the old side, the work tree untouched", async () => {
    const repository = repositoryWith();
    repository.write(terrain(38));
    const { hops } = await repository.changes("HEAD");
    expect(hops.map(({ hop, causes }) => [hop, causes[0]!.kind])).toEqual([["KELD-MOSS", "terrain"]]);
    repository.commit("terrain");
    repository.write(terrain(5));
    // Both sides differ from the work tree.
    const old = await repository.changes("HEAD~1", "HEAD");
    expect(old.hops).toEqual(hops);
    expect(isEmpty(await repository.changes("HEAD", "HEAD"))).toBe(true);
  });

  test("terrain that git does not know is the same on both sides", async () => {
    const repository = repositoryWith({ ".gitignore": "terrain/\n", ...files() });
    repository.write(terrain(38));
    expect(isEmpty(await repository.changes("HEAD"))).toBe(true);
  });

  test("a survey that changed is the cause for its hop", async () => {
    const content = files();
    // KELD to MOSS on WGS84; points at the quarters.
    const LENGTH_M = 8233;
    const survey = (topM: number) =>
      `distance_m,height_m\n${[0, 0.25, 0.5, 0.75, 1].map((part) => `${(part * LENGTH_M).toFixed(0)},${part === 0.5 ? topM : 200}`).join("\n")}\n`;
    content["hops/north.hop"] = content["hops/north.hop"]!.replace(
      "channel P18 / 55 MHz / 6\n",
      'channel P18 / 55 MHz / 6\n  survey "moss.csv" from KELD by field\n',
    );
    content["hops/moss.csv"] = survey(205);
    const repository = repositoryWith(content);
    repository.write({ "hops/moss.csv": survey(225) });
    const { hops } = await repository.changes("HEAD");
    expect(hops.map(({ hop, causes }) => [hop, causes.map(({ kind }) => kind)])).toEqual([
      ["KELD-MOSS", ["survey"]],
    ]);
  });

  test("a folder that was renamed is found where it was", async () => {
    const repository = repositoryWith(below("plans/north", files()));
    repository.git("mv", "plans/north", "plans/nord");
    repository.edit("plans/nord/hops/south.hop", "at 40 m", "at 30 m");
    repository.commit("moved");
    for (const folder of ["plans/nord", "."]) {
      const { designs } = await repository.compare("HEAD~1", "HEAD", folder);
      expect(designs.map(({ root, movedFrom }) => [root.slice(-4), movedFrom?.slice(-5)])).toEqual([
        ["nord", "north"],
      ]);
      expect(designs[0]!.changes.hops.map(({ hop }) => hop)).toEqual(["FELL-TARN"]);
    }
  });

  test("the history of a hop goes on in the folder that a renamed one was", async () => {
    const repository = repositoryWith(below("plans/north", files()));
    repository.edit("plans/north/hops/south.hop", "at 40 m", "at 35 m");
    repository.commit("lower");
    repository.git("mv", "plans/north", "plans/nord");
    repository.commit("moved");
    repository.edit(
      "plans/nord/network.hop",
      "radio R18\n    mode",
      "radio R18\n    arrangement 1+0\n    mode",
    );
    repository.edit("plans/nord/network.hop", "  climate {", "  severity fade-margin warning\n  climate {");
    repository.commit("agreed");
    const at = await repositoryOf(repository.root);
    const folder = `${repository.root}/plans/nord`;
    const head = await revisionOf(at, "HEAD");
    const entries = await hopHistory(at, folder, "FELL-TARN", head, { today: TODAY, limit: 10 });
    expect(
      entries.map(({ commit, status, decisions, shared }) => [
        commit!.title,
        status,
        [...decisions.map(({ word }) => word), ...shared.map(({ entry }) => entry)].join(),
      ]),
    ).toEqual([
      // A default is told once, as what it decides for the hop; the agreement was not there before.
      ["agreed", "changed", "arrangement,policy"],
      ["lower", "changed", "antenna,antenna"],
      ["base", "added", ""],
    ]);
  });

  test("submodules are repositories of their own and not compared", async () => {
    const other = repositoryWith({ "more.hop": hop("OTHER", "KELD", "FELL", 10) });
    const repository = repositoryWith();
    repository.git("-c", "protocol.file.allow=always", "submodule", "--quiet", "add", other.root, "sub");
    expect(isEmpty(await repository.changes("HEAD"))).toBe(true);
    repository.commit("with a submodule");
    expect(isEmpty(await repository.changes("HEAD~1", "HEAD"))).toBe(true);
  });

  test("a folder that neither side has is an error, one that only one side has is a design come or gone", async () => {
    const repository = repositoryWith(below("one", files()));
    await expect(repository.compare("HEAD", undefined, "two")).rejects.toThrow(
      /neither side has a \.hop file/,
    );
    repository.write(
      below("two", { ...files(), "network.hop": files()["network.hop"]!.replace("Change", "Other") }),
    );
    const { designs } = await repository.compare("HEAD", undefined);
    const [other] = designs.filter(({ root }) => root.endsWith("two"));
    expect(other!.changes.counts).toMatchObject({ added: 3, removed: 0, edited: 0 });
  });

  test("names with spaces and letters of other scripts, and a way in over a link", async () => {
    const repository = repositoryWith(below("nät 1/плани", files()));
    repository.edit("nät 1/плани/hops/south.hop", "at 40 m", "at 30 m");
    const link = `${repository.root}-link`;
    symlinkSync(repository.root, link);
    const linked = new TestRepository(link);
    expect((await linked.changes("HEAD")).hops.map(({ hop }) => hop)).toEqual(["FELL-TARN"]);
    rmSync(link);
  });
});
