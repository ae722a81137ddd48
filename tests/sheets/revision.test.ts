/** A paper names the commit that its design was read at, and says where the design differs from it. */
import { execFileSync } from "node:child_process";
import { mkdirSync, mkdtempSync, realpathSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import fc from "fast-check";
import { afterEach, beforeEach, expect, test } from "vitest";
import { judgeFolder } from "../../server/findings/judged-folder.js";
import { revisionOfDesign } from "../../server/report/revision.js";
import { sheetsOf } from "../../server/sheets/sheets.js";
import type { DesignRevision } from "../../shared/design/revision.js";
import { printHtml } from "../../shared/report/document/html.js";
import { printMarkdown } from "../../shared/report/document/markdown.js";
import { magneticDayOf, runningTitle, withRunning } from "../../shared/report/sheets/running.js";
import { ENGLISH } from "../../shared/report/sheets/words/english.js";
import { GERMAN } from "../../shared/report/sheets/words/german.js";
import { files, terrain } from "../compare/network.js";
import { TestRepository, TODAY } from "../compare/repository.js";

let repository: TestRepository;
let top: string;

beforeEach(() => {
  top = realpathSync(mkdtempSync(join(tmpdir(), "hopwright-revision-")));
  mkdirSync(join(top, "net"));
  repository = new TestRepository(join(top, "net"));
  repository.git("init", "-q", "-b", "main");
  repository.write(files());
});

afterEach(() => {
  rmSync(top, { recursive: true, force: true });
});

async function revisionsIn(folder: string): Promise<DesignRevision[]> {
  const judged = await judgeFolder(folder, { today: TODAY });
  return Promise.all(judged.designs.map((design) => revisionOfDesign(design, judged)));
}

async function revision(folder = repository.root): Promise<DesignRevision> {
  const [one, ...more] = await revisionsIn(folder);
  expect(more).toEqual([]);
  return one!;
}

const clean = (commit: string) => ({
  state: "committed",
  commit: commit.slice(0, 12),
  day: "2026-01-01",
  changed: false,
  filesBeside: false,
});
const changed = (commit: string) => ({ ...clean(commit), changed: true });

test("no repository, none with a commit, and none that has the design: not in git", async () => {
  expect(await revision()).toEqual({ state: "not in git" });
  repository.write({ "other.txt": "x" });
  repository.git("add", "other.txt");
  repository.git("commit", "-q", "-m", "something else");
  expect(await revision()).toEqual({ state: "not in git" });
  rmSync(join(repository.root, ".git"), { recursive: true });
  expect(await revision()).toEqual({ state: "not in git" });
});

test("a folder that is in no commit has no revision, though its catalogue is in one: its sheets have true north alone", async () => {
  const all = files();
  for (const path of Object.keys(all)) rmSync(join(repository.root, path));
  const { "catalogue.hop": catalogue, ...own } = all;
  repository.write({ "parts/catalogue.hop": catalogue! });
  const commit = repository.commit("parts");
  repository.write(Object.fromEntries(Object.entries(own).map(([path, text]) => [`new/${path}`, text])));
  repository.edit("new/network.hop", 'terrain "terrain"', 'terrain "terrain"\n  catalogue "../parts"');
  const folder = join(repository.root, "new");
  expect(await revision(folder)).toEqual({ state: "not in git" });
  const judged = await judgeFolder(folder, { today: TODAY });
  const told = await revisionOfDesign(judged.designs[0]!, judged);
  const asked = { kinds: ["line-up", "installation"], words: ENGLISH, folder: "", revision: told };
  const pages = [...sheetsOf(judged.designs[0]!, asked)];
  expect(pages.length).toBeGreaterThan(1);
  for (const page of pages) {
    expect(page.commitDay).toBeUndefined();
    expect(page.running).toBe("Change · not in git");
    const { text } = printHtml(page);
    expect(text).toContain("no commit of git has one");
    expect(text).not.toContain(commit.slice(0, 12));
    expect(text).not.toContain("2026-01-01");
  }
  // One of its texts is enough: then the others are what changed.
  repository.git("add", "new/sites.hop");
  repository.git("commit", "-q", "-m", "one of them");
  expect(await revision(folder)).toMatchObject({ state: "committed", changed: true });
});

test("a commit is told with its day, as long as everything is as it has it", async () => {
  const commit = repository.commit("base");
  expect(await revision()).toEqual(clean(commit));
  // What is no part of the design is no change of it.
  repository.write({ "notes.txt": "x", "build/out.html": "y" });
  expect(await revision()).toEqual(clean(commit));
});

test.each<[string, () => void]>([
  ["a text edited", () => repository.edit("hops/south.hop", "at 40 m", "at 30 m")],
  ["a text added", () => repository.write({ "hops/more.hop": "" })],
  [
    "a text added and staged",
    () => {
      repository.write({ "hops/more.hop": "" });
      repository.git("add", "-A");
    },
  ],
  [
    "a text edited and staged",
    () => {
      repository.edit("hops/south.hop", "at 40 m", "at 30 m");
      repository.git("add", "-A");
    },
  ],
  [
    "a text ignored by git",
    () => {
      repository.write({ "hops/more.hop": "", ".git/info/exclude": "more.hop" });
    },
  ],
  ["a text taken away", () => rmSync(join(repository.root, "hops/south.hop"))],
  ["terrain that is another", () => repository.write(terrain(38))],
  ["terrain taken away", () => rmSync(join(repository.root, "terrain/land.asc"))],
  [
    "its coordinate system",
    () => repository.write({ "terrain/land.prj": `${repository.read("terrain/land.prj")} ` }),
  ],
  [
    "a link in the place of a text",
    () => {
      rmSync(join(repository.root, "hops/south.hop"));
      writeFileSync(join(repository.root, "south.txt"), "");
      symlinkSync("north.hop", join(repository.root, "hops/south.hop"));
    },
  ],
])("%s is a change that is not committed", async (_, change) => {
  const commit = repository.commit("base");
  change();
  expect(await revision()).toEqual(changed(commit));
});

test("an index that says that nothing changed is not believed, and one that says so is not asked", async () => {
  const commit = repository.commit("base");
  repository.git("update-index", "--assume-unchanged", "sites.hop");
  expect(await revision()).toEqual(clean(commit));
  repository.edit("sites.hop", "mast 60 m", "mast 61 m");
  expect(await revision()).toEqual(changed(commit));
});

test("line ends of Windows are no change", async () => {
  const commit = repository.commit("base");
  const text = repository.read("sites.hop");
  repository.write({ "sites.hop": text.replaceAll("\n", "\r\n") });
  expect(await revision()).toEqual(clean(commit));
});

test("a committed link is as committed while it leads to the same", async () => {
  const sites = repository.read("sites.hop");
  repository.write({ ".kept/one.hop": sites, ".kept/other.hop": sites });
  rmSync(join(repository.root, "sites.hop"));
  symlinkSync(".kept/one.hop", join(repository.root, "sites.hop"));
  const commit = repository.commit("base");
  expect(await revision()).toEqual(clean(commit));
  rmSync(join(repository.root, "sites.hop"));
  symlinkSync(".kept/other.hop", join(repository.root, "sites.hop"));
  expect(await revision()).toEqual(changed(commit));
});

test("terrain outside of git is said, and is no change", async () => {
  repository.write({ ".gitignore": "terrain/\n" });
  const commit = repository.commit("without terrain");
  expect(await revision()).toEqual({ ...clean(commit), filesBeside: true });
  const far = join(top, "far");
  mkdirSync(far);
  repository.edit("network.hop", 'terrain "terrain"', 'terrain "../far"');
  for (const [path, text] of Object.entries(terrain(5)))
    writeFileSync(join(far, path.replace("terrain/", "")), text);
  const next = repository.commit("terrain far away");
  expect(await revision()).toEqual({ ...clean(next), filesBeside: true });
});

test("a catalogue outside of the repository is said too", async () => {
  mkdirSync(join(top, "shared"));
  writeFileSync(join(top, "shared/catalogue.hop"), repository.read("catalogue.hop"));
  rmSync(join(repository.root, "catalogue.hop"));
  repository.edit("network.hop", 'terrain "terrain"', 'terrain "terrain"\n  catalogue "../shared"');
  const commit = repository.commit("base");
  expect(await revision()).toEqual({ ...clean(commit), filesBeside: true });
});

test("of two designs in a repository only the one that was edited has changes", async () => {
  const all = files();
  for (const path of Object.keys(all)) rmSync(join(repository.root, path));
  for (const name of ["a", "b"])
    repository.write(
      Object.fromEntries(Object.entries(all).map(([path, text]) => [`${name}/${path}`, text])),
    );
  const commit = repository.commit("two");
  repository.edit("b/sites.hop", "mast 60 m", "mast 61 m");
  rmSync(join(repository.root, "b/hops/south.hop"));
  expect(await revisionsIn(repository.root)).toEqual([clean(commit), changed(commit)]);
  expect(await revisionsIn(join(repository.root, "a"))).toEqual([clean(commit)]);
});

test("a second work tree, a shallow clone and a bare repository", async () => {
  const first = repository.commit("base");
  repository.edit("sites.hop", "mast 60 m", "mast 61 m");
  const second = repository.commit("second");
  repository.git("worktree", "add", "-q", "-b", "old", join(top, "old"), first);
  expect(await revision(join(top, "old"))).toEqual(clean(first));
  repository.git("clone", "-q", "--depth", "1", `file://${repository.root}`, join(top, "shallow"));
  expect(await revision(join(top, "shallow"))).toEqual(clean(second));
  repository.git("clone", "-q", "--bare", `file://${repository.root}`, join(top, "bare"));
  new TestRepository(join(top, "bare")).write(files());
  expect(await revision(join(top, "bare"))).toEqual({ state: "not in git" });
});

test("a design in a submodule has that one's commit, and a catalogue in one counts", async () => {
  const inner = new TestRepository(join(top, "inner"));
  mkdirSync(inner.root);
  inner.git("init", "-q", "-b", "main");
  inner.write({ "catalogue.hop": repository.read("catalogue.hop") });
  const of = inner.commit("catalogue");
  rmSync(join(repository.root, "catalogue.hop"));
  repository.git("-c", "protocol.file.allow=always", "submodule", "--quiet", "add", inner.root, "parts");
  const commit = repository.commit("base");
  expect(await revision()).toEqual(clean(commit));
  const parts = new TestRepository(join(repository.root, "parts"));
  expect(await revision(parts.root)).toEqual(clean(of));
  parts.edit("catalogue.hop", "gain 44 dBi", "gain 45 dBi");
  expect(await revision()).toEqual(changed(commit));
  const next = parts.commit("another gain");
  expect(await revision()).toEqual(changed(commit));
  expect(await revision(parts.root)).toMatchObject({ commit: next.slice(0, 12), changed: false });
});

test("a repository that git cannot read is said, and sheets come all the same", async () => {
  repository.commit("base");
  writeFileSync(join(repository.root, ".git/config"), "[core\n");
  expect(await revision()).toMatchObject({ state: "not read" });
  expect(runningTitle("Change", await revision(), ENGLISH)).toBe("Change · revision not known");
});

test("each sheet carries name and revision, and the compass is for the day of the commit", async () => {
  const commit = repository.commit("base");
  const judged = await judgeFolder(repository.root, { today: TODAY });
  const design = judged.designs[0]!;
  const told = await revisionOfDesign(design, judged);
  const running = `Change · Stand ${commit.slice(0, 12)} vom 01.01.2026`;
  const pages = [
    ...sheetsOf(design, { kinds: ["line-up", "acceptance"], words: GERMAN, folder: "", revision: told }),
  ];
  expect(pages.length).toBeGreaterThan(0);
  for (const page of pages) {
    expect(page.running).toBe(running);
    expect(page.commitDay).toBe("2026-01-01");
    const html = printHtml(page).text;
    expect(html).toContain(`<p class="running">${running}</p>`);
    expect(html).toContain("counter(page)");
    expect(html).toContain("01.01.2026");
    // Nothing is turned by the sheet that is signed: it has no bearings for a compass.
    expect(html.includes(GERMAN.revision.compassOfCommit)).toBe(page.name.startsWith("line-up"));
    expect(printMarkdown(page)[0]!.text).toContain(running);
  }
});

test("a page is of the day of a commit only where nothing differs from it", () => {
  const page = { name: "p", title: "T", keyFigures: [], sections: [], colophon: "" };
  const committed = { state: "committed", commit: "0123456789ab", day: "2026-01-01" } as const;
  const dayOf = (revision: DesignRevision) => withRunning(page, "running", revision).commitDay;
  expect(dayOf({ ...committed, changed: false, filesBeside: false })).toBe("2026-01-01");
  expect(dayOf({ ...committed, changed: true, filesBeside: false })).toBeUndefined();
  expect(dayOf({ ...committed, changed: false, filesBeside: true })).toBeUndefined();
  expect(dayOf({ state: "not in git" })).toBeUndefined();
});

test("the day of the network comes before that of the commit; without both there is none", () => {
  const committed = {
    state: "committed",
    commit: "a",
    day: "2026-01-01",
    changed: true,
    filesBeside: false,
  } as const;
  expect(magneticDayOf("2027-01-01", committed)).toEqual({ day: "2027-01-01" });
  expect(magneticDayOf(undefined, committed)).toEqual({ day: "2026-01-01", ofCommit: true });
  expect(magneticDayOf(undefined, { ...committed, day: undefined })).toBeUndefined();
  expect(magneticDayOf(undefined, { state: "not in git" })).toBeUndefined();
});

test("no name of a design ends the style sheet or a string in it", () => {
  fc.assert(
    fc.property(fc.string({ unit: "binary" }), (name) => {
      const running = `${name}"}</style><script>1</script>\\`;
      const { text } = printHtml({
        name: "a",
        title: "A",
        running,
        keyFigures: [],
        sections: [],
        colophon: "",
      });
      expect(text.match(/<\/style>/g)).toHaveLength(1);
      expect(text).not.toContain("<script>");
      const [, said] = /@bottom-left\{content:"([^"]*)"\}/.exec(text)!;
      expect(said).toMatch(/^([A-Za-z0-9 ]|\\[0-9a-f]{1,6} )*$/);
    }),
  );
});

test("the state is the same whatever git's settings say of line ends, signatures and abbreviations", async () => {
  const commit = repository.commit("base");
  for (const [key, value] of [
    ["core.autocrlf", "true"],
    ["core.abbrev", "4"],
    ["log.showSignature", "true"],
    ["log.date", "relative"],
    ["core.quotePath", "true"],
  ] as const)
    execFileSync("git", ["config", key, value], { cwd: repository.root });
  expect(await revision()).toEqual(clean(commit));
});
