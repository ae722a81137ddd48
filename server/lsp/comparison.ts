/**
 * The open designs held against a revision, kept current while the text changes: for the page beside the text, the
 * lenses over hops and the marks in the margin. Nothing is done until somebody asks for a comparison.
 */
import { type ChangeSet, type HopChange, isEmpty } from "../../shared/compare/change-set.js";
import { headline } from "../../shared/compare/page/hop-section.js";
import { atAllTimes } from "../../shared/compare/times.js";
import { Memory } from "../../shared/network/memory.js";
import { printHtml } from "../../shared/report/document/html.js";
import { compareStates, type DesignState, stateOf } from "../compare/compare-designs.js";
import { notesOf, sideAt } from "../compare/compare-folders.js";
import { folderBefore } from "../compare/renamed-folder.js";
import { Scratch } from "../compare/scratch.js";
import { commitFiles, workTreeFiles } from "../compare/side-files.js";
import { groundOf, type SideGround } from "../compare/side-ground.js";
import { type Repository, type Revision, repositoryOf, revisionOf } from "../git/repository.js";
import { changePages } from "../report/diff-pages.js";
import type { DesignSession } from "../session/design-session.js";
import { openTerrain } from "../terrain/store.js";

export interface HopMark {
  readonly hop: string;
  readonly file: string;
  /** Offset of the hop's declaration in the file. */
  readonly offset: number;
  /** Offset behind its last line. */
  readonly end: number;
  readonly kind: "added" | "worse" | "better" | "changed";
  /** For example `changed since main: margin -3.1 dB`. */
  readonly text: string;
}

export class Comparison {
  private changes: ChangeSet | undefined;

  private constructor(
    private readonly repository: Repository,
    readonly revision: Revision,
    private readonly base: DesignState,
    private readonly live: DesignState,
    private readonly scratch: Scratch,
    /** What is left out, one sentence each. */
    private readonly notes: readonly string[],
  ) {}

  /** @throws CommandError when the design is in no repository, or there is no such revision */
  static async begin(session: DesignSession, name: string): Promise<Comparison> {
    const { root } = session.model;
    const repository = await repositoryOf(root);
    const revision = await revisionOf(repository, name);
    const cache = new Map([...session.model.allFiles()].map((file) => [file.path, file]));
    const files = await commitFiles(repository, revision, cache);
    const now = workTreeFiles(repository, files.tree!.submodules, cache);
    const oldRoot = folderBefore(repository.root, root, files, now);
    const { models, project } = sideAt(oldRoot, files, [session.model]);
    const title = session.model.title();
    const model =
      models.find((one) => one.root === oldRoot) ??
      models.find((one) => title !== undefined && one.title() === title) ??
      project.designs()[0]!;
    const scratch = new Scratch();
    const hops = model.names("hop");
    const ground = await groundOf(repository, files, scratch, { model, hops, baseDir: root });
    const memory = new Memory();
    const base = stateOf(model, ground, session.today, memory);
    const live = { session, ground: ON_DISK, live: true, memory };
    const notes = [...files.leftOut(oldRoot), ...now.leftOut(root)];
    return new Comparison(repository, revision, base, live, scratch, notes);
  }

  get session(): DesignSession {
    return this.live.session;
  }

  /** Compares anew. The session must be up to date, and stay so until this is done: otherwise it is asked again. */
  async refresh(): Promise<void> {
    this.changes = await compareStates(this.base, this.live);
  }

  /** One self-contained HTML page, with the profiles of both sides. */
  async page(): Promise<{ readonly title: string; readonly html: string }> {
    if (!this.changes) await this.refresh();
    const sides = { was: this.base.session, is: this.live.session };
    const { root } = this.session.model;
    const movedFrom = sides.was.model.root === root ? undefined : sides.was.model.root;
    const design = {
      ...sides,
      root,
      movedFrom,
      title: this.session.model.title(),
      changes: this.changes!,
      times: atAllTimes(this.changes!),
      daysLeftOut: 0,
    };
    const [page] = await changePages(
      {
        repository: this.repository,
        was: this.revision,
        designs: [design],
        notes: [...notesOf([design], this.revision, undefined), ...this.notes, ...this.base.ground.notes],
        unreadable: [],
        dispose: () => {},
      },
      { drawings: true },
    );
    return { title: `Since ${this.revision.name}`, html: printHtml(page!).text };
  }

  /** Hops that changed, where they stand now. Removed ones stand nowhere. */
  marks(): HopMark[] {
    if (!this.changes || isEmpty(this.changes)) return [];
    const { model } = this.session;
    return this.changes.hops.flatMap((change): HopMark[] => {
      const entry = model.declarations(`hop ${change.hop}`)[0];
      if (!entry || change.status === "removed") return [];
      const { start, end } = entry.fact.statement;
      const text = `${verb(change)} ${this.revision.name}: ${headline(change)}`;
      return [{ hop: change.hop, file: entry.file, offset: start, end, kind: kindOf(change), text }];
    });
  }

  dispose(): void {
    this.scratch.remove();
  }
}

const ON_DISK: SideGround = { openTerrain, fileFor: (path) => path, shown: (file) => file, notes: [] };

function verb({ edited }: HopChange): string {
  return edited ? "changed since" : "changed without an edit since";
}

function kindOf({ status, worse, figures, findings }: HopChange): HopMark["kind"] {
  if (status === "added") return "added";
  if (worse) return "worse";
  const better =
    figures.some(({ verdict }) => verdict === "better") || findings.some((one) => one.status === "fixed");
  return better ? "better" : "changed";
}
