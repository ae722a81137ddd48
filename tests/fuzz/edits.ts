/** Edits, openings, closings, renames and deletions in the server, against a cold start on the same files. */
import { existsSync, mkdirSync, mkdtempSync, renameSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import type { Diagnostic } from "vscode-languageserver";
import { parse } from "../../language/syntax/parse.js";
import { slashed } from "../../server/files/slashed.js";
import { Designs } from "../../server/lsp/designs.js";
import { Evaluation } from "../../server/lsp/evaluation.js";
import { statusOf } from "../../server/lsp/status.js";
import { EXAMPLE_PREAMBLE } from "../../shared/rules/example-preamble.js";
import { RULES } from "../../shared/rules/index.js";
import { Chance } from "./chance.js";
import { type Fuzzer, thrown } from "./fuzzer.js";
import { look } from "./look.js";
import { GENTLE, MUTATIONS, mutated } from "./mutate.js";

const TODAY = "2026-06-01";

const FEW_PIECES = [
  "site A { at 47 -30 }",
  'site A { at 47 -30.05; accept site-high-and-low because "x" }',
  "site B { at 47 -30.1 }",
  "site C { at 47.1 -30.1 }",
  "antenna X { gain 30 dBi }",
  "antenna X { gain 33 dBi }",
  "template radio BASE { mode 28 MHz QPSK rate 40 Mbit/s }",
  "radio R like BASE { overload -20 dBm }",
  "radio R { mode 28 MHz 16QAM rate 80 Mbit/s }",
  "radio R like S { overload -20 dBm }",
  "radio S like R {}",
  "radio A { overload -30 dBm }",
  "defaults end { antenna X at 20 m }",
  "defaults hop { radio R }",
  'network "N" { climate { rain 30 mm/h }; objective o { availability 99.9 % } }',
  'network "N" { catalogue "../shared" }',
  'network "M" { catalogue "../shared"; catalogue "../network/hops" }',
  "objective o { availability 99 % }",
  "severity hop-incomplete error",
  "licences required notice 30 d",
  'licence "1" of H from A { frequency 7 GHz; height 10 m; antenna X; until 2026-06-20 }',
  'licence "2" of H from B { at 47 -30.1; polarization vertical }',
  "hop H { state built; radio R; A { antenna X at 12 m; transmits 7 GHz }; B { antenna X at 10 m; transmits 7.2 GHz } }",
  "hop H { radio R; A { antenna X at 10 m }; B {} }",
  "hop H { radio R; mode 28 MHz QPSK; A {}; C {} }",
  "hop I { objective o; channel P / 28 MHz / 1; B { transmits low }; C { transmits high } }",
  "plan P { centre 7 GHz; row 28 MHz go -100 MHz return 54 MHz channels 1 to 4 }",
  "site {",
];
const MANY_PIECES = [
  EXAMPLE_PREAMBLE,
  ...[...RULES.values()].flatMap(({ good, bad }) => [good, bad]),
].flatMap((text) => parse(text).statements.map(({ start, end }) => text.slice(start, end)));

/** A document that no file holds yet. */
const UNSAVED = "untitled:Untitled-1";

/** Below the folder of a case; the server opens `work`, or other folders. */
const FILES = [
  "work/network.hop",
  "work/sites.hop",
  "work/hops/a.hop",
  "work/hops/b.hop",
  "work/second/network.hop",
  "work/second/c.hop",
  "shared/catalogue.hop",
  "shared/more/d.hop",
  "work/.history/a.hop",
  "work/node_modules/part/network.hop",
  "elsewhere/network.hop",
  "elsewhere/hops/e.hop",
  UNSAVED,
];
const FOLDERS = ["work/hops", "work/second", "shared/more", "work/.history", "elsewhere/hops"];
/** What is opened at a time. */
const OPENED: readonly (readonly string[])[] = [
  ["work"],
  ["work", "elsewhere"],
  ["work/hops"],
  ["work/second", "shared"],
  [],
];

/** What happens to a file, in an editor and beside it. The order of a case's steps is all that they depend on. */
const STEPS = [
  "open",
  "type",
  "type",
  "type",
  "undo",
  "close",
  "save",
  "write",
  "delete",
  "rename",
  "folder",
  "opened",
  "ask",
  "settle",
] as const;

interface Step {
  readonly kind: (typeof STEPS)[number];
  readonly file: string;
  readonly seed: number;
}

let base: string | undefined;

export const edits: Fuzzer = {
  name: "edits",
  what: "edits through the server against a cold start",
  begin(chance) {
    const kinds = chance.some(STEPS, 0.8);
    const files = chance.some(FILES, 0.6);
    const pieces = chance.likely(0.5)
      ? FEW_PIECES
      : [...chance.some(MANY_PIECES, 0.1), ...FEW_PIECES.slice(14, 17)];
    const mutations = chance.likely(0.7)
      ? GENTLE
      : Object.keys(MUTATIONS).filter((name) => !/deep|long/.test(name));
    const steps = Array.from(
      { length: 10 + chance.below(60) },
      (): Step => ({
        kind: chance.of(kinds),
        file: chance.of(files),
        seed: chance.seed(),
      }),
    );
    return {
      parts: steps.length,
      counts: steps.length,
      async run(kept) {
        const history = new History(pieces, mutations);
        try {
          for (const at of kept) await history.take(steps[at]!);
          await history.compare();
        } catch (error) {
          history.wrong.push(thrown("a step", error));
        }
        return history.wrong;
      },
      tell: (kept) => {
        const history = new History(pieces, mutations, true);
        return kept.map((at) => history.tell(steps[at]!)).join("\n");
      },
    };
  },
  end() {
    if (base) rmSync(base, { recursive: true, force: true });
    base = undefined;
  },
};

/** The server, and beside it what it should know: texts by path, on disk and in the editor. */
class History {
  readonly wrong: string[] = [];
  private readonly disk = new Map<string, string>();
  private readonly open = new Map<string, string>();
  private readonly before = new Map<string, string>();
  private readonly server: Server | undefined;
  private readonly top: string;
  private opened: readonly string[] = OPENED[0]!;

  constructor(
    private readonly pieces: readonly string[],
    private readonly mutations: readonly string[],
    private readonly onlyTold = false,
  ) {
    base ??= slashed(mkdtempSync(join(tmpdir(), "hopwright-fuzz-")));
    this.top = `${base}/live`;
    if (onlyTold) return;
    rmSync(this.top, { recursive: true, force: true });
    mkdirSync(`${this.top}/work`, { recursive: true });
    this.server = new Server(this.top, this.opened, this.wrong);
  }

  async take(step: Step): Promise<void> {
    this.apply(step);
    if (step.kind === "ask" && this.server)
      this.wrong.push(...(await look(this.server.designs, this.at(step.file), new Chance(step.seed + 2))));
    if (step.kind === "settle") await this.compare();
    else if (new Chance(step.seed).likely(0.3)) await this.server?.run();
    else this.server?.evaluation.touch();
  }

  tell(step: Step): string {
    const texts = [new Map(this.disk), new Map(this.open)];
    this.apply(step);
    const [disk, open] = [this.disk, this.open].map((now, index) =>
      [...now]
        .filter(([path, text]) => texts[index]!.get(path) !== text)
        .map(([path, text]) => `${path}: ${JSON.stringify(text)}`),
    );
    return [
      `${step.kind} ${step.file}`,
      ...disk!.map((one) => `  disk ${one}`),
      ...open!.map((one) => `  editor ${one}`),
    ].join("\n");
  }

  private apply({ kind, file, seed }: Step): void {
    const chance = new Chance(seed + 1);
    const known = this.open.get(file);
    switch (kind) {
      case "open":
        if (known === undefined && this.disk.has(file)) this.type(file, this.disk.get(file)!);
        return;
      case "type":
        this.type(file, this.changed(known ?? this.disk.get(file) ?? "", chance));
        return;
      case "undo":
        if (known !== undefined) this.type(file, this.before.get(file) ?? "");
        return;
      case "close":
        this.close(file);
        return;
      case "save":
        if (known !== undefined) this.write(file, known);
        return;
      case "write":
        this.write(file, this.changed(this.disk.get(file) ?? "", chance));
        return;
      case "delete":
        this.remove(file);
        return;
      case "rename":
        this.rename(file, chance.of(FILES));
        return;
      case "folder":
        this.removeFolder(chance.of(FOLDERS));
        return;
      case "opened":
        this.opened = chance.of(OPENED);
        this.server?.designs.setFolders(this.opened.map((folder) => `${this.top}/${folder}`));
        return;
      case "ask":
      case "settle":
        return;
    }
  }

  private at(file: string, top = this.top): string {
    return file === UNSAVED ? file : `${top}/${file}`;
  }

  private changed(text: string, chance: Chance): string {
    if (text !== "" && chance.likely(0.6)) return mutated(text, this.mutations, 1, chance);
    return Array.from({ length: chance.below(6) }, () => chance.of(this.pieces)).join("\n");
  }

  private type(file: string, text: string): void {
    this.before.set(file, this.open.get(file) ?? text);
    this.open.set(file, text);
    this.server?.designs.edit(this.at(file), text);
  }

  private close(file: string): void {
    if (!this.open.delete(file)) return;
    this.server?.designs.close(this.at(file));
  }

  private write(file: string, text: string): void {
    if (file === UNSAVED) return;
    this.disk.set(file, wellFormed(text));
    if (this.onlyTold) return;
    put(`${this.top}/${file}`, text);
    this.server?.designs.changedOnDisk(`${this.top}/${file}`);
  }

  private remove(file: string): void {
    if (!this.disk.delete(file) || this.onlyTold) return;
    rmSync(`${this.top}/${file}`);
    this.server?.designs.changedOnDisk(`${this.top}/${file}`);
  }

  /** As an editor does it: the old document is closed, the new one opened, and both are told of. */
  private rename(file: string, to: string): void {
    const text = this.disk.get(file);
    if (text === undefined || file === to || to === UNSAVED) return;
    const typed = this.open.get(file);
    this.disk.delete(file);
    this.disk.set(to, text);
    if (!this.onlyTold) {
      mkdirSync(dirname(`${this.top}/${to}`), { recursive: true });
      renameSync(`${this.top}/${file}`, `${this.top}/${to}`);
    }
    if (typed !== undefined) {
      this.close(file);
      this.type(to, typed);
    }
    for (const path of [file, to]) this.server?.designs.changedOnDisk(`${this.top}/${path}`);
  }

  private removeFolder(folder: string): void {
    for (const path of [...this.disk.keys()]) if (path.startsWith(`${folder}/`)) this.disk.delete(path);
    if (this.onlyTold || !existsSync(`${this.top}/${folder}`)) return;
    rmSync(`${this.top}/${folder}`, { recursive: true });
    this.server?.designs.changedOnDisk(`${this.top}/${folder}`);
  }

  /** What is shown is what a server shows that starts now on the same texts. */
  async compare(): Promise<void> {
    if (!this.server) return;
    await this.server.run();
    const top = `${base}/cold`;
    rmSync(top, { recursive: true, force: true });
    mkdirSync(`${top}/work`, { recursive: true });
    for (const [path, text] of this.disk) put(`${top}/${path}`, text);
    const cold = new Server(top, this.opened, this.wrong);
    for (const [path, text] of this.open) cold.designs.edit(this.at(path, top), text);
    await cold.run();
    const [live, fresh] = [this.server, cold].map((server) => server.shown());
    for (const line of live!) if (!fresh!.has(line)) this.wrong.push(`difference: only after edits: ${line}`);
    for (const line of fresh!)
      if (!live!.has(line)) this.wrong.push(`difference: only after a cold start: ${line}`);
  }
}

class Server {
  readonly designs: Designs;
  readonly evaluation: Evaluation;
  private readonly published = new Map<string, readonly Diagnostic[]>();

  constructor(
    private readonly top: string,
    opened: readonly string[],
    wrong: string[],
  ) {
    this.designs = new Designs(
      opened.map((folder) => `${top}/${folder}`),
      { today: TODAY },
    );
    this.evaluation = new Evaluation(this.designs, {
      publish: (path, diagnostics) => void this.published.set(path, diagnostics),
      changed: () => undefined,
      status: () => undefined,
      failed: (error) => void wrong.push(thrown("the evaluation", error)),
    });
    this.designs.load();
  }

  async run(): Promise<void> {
    this.evaluation.touch();
    await this.evaluation.settled();
  }

  /** Every diagnostic with its file, and the counts of every design, without the folder that the case lies in. */
  shown(): Set<string> {
    const lines = [...this.published].flatMap(([path, diagnostics]) =>
      diagnostics.map((one) => `${path} ${JSON.stringify(one)}`),
    );
    const counts = statusOf(this.designs, 0)
      .designs.filter(({ hops, errors, warnings, infos }) => hops + errors + warnings + infos > 0)
      .map((one) => `design ${JSON.stringify(one)}`);
    return new Set([...lines, ...counts].map((line) => line.replaceAll(this.top, "")));
  }
}

/** As a file holds it: a half of a pair of surrogates does not come back from disk. */
function wellFormed(text: string): string {
  return text.toWellFormed();
}

function put(path: string, text: string): void {
  mkdirSync(dirname(path), { recursive: true });
  writeFileSync(path, text);
}
