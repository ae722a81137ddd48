/** When a comparison is made anew, and what the client is told of it. */
import { type CodeLens, CodeLensRefreshRequest, type Connection } from "vscode-languageserver";
import { CommandError } from "../command-error.js";
import { linesOf } from "../findings/lines.js";
import { repositoryOf } from "../git/repository.js";
import { revisionsOf } from "../git/revisions.js";
import { Comparison, type HopMark } from "./comparison.js";
import type { Designs } from "./designs.js";
import type { Evaluation } from "./evaluation.js";
import { pathOf, uriOf } from "./locations.js";
import {
  CHANGED,
  type ChangedParams,
  COMPARE,
  type CompareParams,
  type CompareResult,
  REVISIONS,
  type RevisionsParams,
  type RevisionsResult,
} from "./protocol.js";

const UNTRUSTED =
  "Comparing starts git, and nothing is started in a workspace that is not trusted; trust it to compare.";

const NO_DESIGN = "This file belongs to no design.";

/** After the last change and evaluation; a comparison that takes long waits the longer for a rest. */
const REST_MS = 300;

export class CompareHost {
  private comparison: Comparison | undefined;
  private marks: readonly HopMark[] = [];
  private timer: NodeJS.Timeout | undefined;
  private tookMs = 0;
  /** What the client was told last: only what differs is worth a new page. */
  private told = JSON.stringify({ files: [] });
  canRefreshLenses = false;
  private trusted = false;
  /** Asked for while the opened folders were not trusted. */
  private refused: { readonly path: string; readonly revision: string } | undefined;

  constructor(
    private readonly connection: Connection,
    private readonly designs: () => Designs,
    private readonly evaluation: () => Evaluation,
  ) {
    connection.onRequest(COMPARE, (params: CompareParams) => this.compare(params));
    connection.onRequest(REVISIONS, (params: RevisionsParams) => this.revisions(params));
  }

  /** From now on git may be started. */
  trust(): void {
    this.trusted = true;
    this.refuse(undefined);
  }

  /** Everything is evaluated: what is shown of a comparison may be old. */
  settled(): void {
    if (!this.comparison) return;
    clearTimeout(this.timer);
    this.timer = setTimeout(
      () => {
        this.refresh().catch((error) => this.connection.console.error(`comparing failed: ${error}`));
      },
      Math.max(REST_MS, 10 * this.tookMs),
    );
  }

  private async revisions({ uri }: RevisionsParams): Promise<RevisionsResult> {
    if (!this.trusted) return { problem: UNTRUSTED, untrusted: true };
    const session = this.designs().sessionAt(pathOf(uri));
    if (!session) return { problem: NO_DESIGN };
    try {
      return { revisions: await revisionsOf(await repositoryOf(session.model.root)) };
    } catch (error) {
      if (error instanceof CommandError) return { problem: error.message };
      throw error;
    }
  }

  private async compare({ uri, revision }: CompareParams): Promise<CompareResult> {
    await this.evaluation().settled();
    if (revision === null) {
      this.end();
      this.refuse(undefined);
      return {};
    }
    if (!this.trusted) {
      this.refuse({ path: pathOf(uri), revision });
      return { problem: UNTRUSTED, untrusted: true };
    }
    const session = this.designs().sessionAt(pathOf(uri));
    if (!session) return { problem: NO_DESIGN };
    try {
      const known = this.comparison;
      if (!known || known.revision.name !== revision || known.session !== session) {
        const comparison = await Comparison.begin(session, revision);
        this.end();
        this.comparison = comparison;
      }
      await this.refresh();
      return await this.comparison!.page();
    } catch (error) {
      if (error instanceof CommandError) return { problem: error.message };
      throw error;
    }
  }

  private async refresh(): Promise<void> {
    const { comparison } = this;
    clearTimeout(this.timer);
    if (!comparison) return;
    await this.evaluation().settled();
    // A network that came or went makes other sessions.
    if (!this.designs().allSessions().includes(comparison.session)) return this.end();
    const start = performance.now();
    await comparison.refresh();
    this.tookMs = performance.now() - start;
    if (this.comparison === comparison) this.tell(comparison.marks());
  }

  private end(): void {
    clearTimeout(this.timer);
    this.comparison?.dispose();
    this.comparison = undefined;
    this.tell([]);
  }

  private tell(marks: readonly HopMark[]): void {
    this.marks = marks;
    const files = [...Map.groupBy(marks, ({ file }) => file)].map(([path, of]) => ({
      uri: uriOf(path),
      marks: of.flatMap(({ offset, end, kind, text }) => {
        const file = this.designs().file(path);
        if (!file) return [];
        const { start, end: last } = linesOf(file).range(offset, end);
        return [{ fromLine: start.line, toLine: last.line, kind, text }];
      }),
    }));
    const params: ChangedParams = { revision: this.comparison?.revision.name, files };
    const content = JSON.stringify(params);
    if (content === this.told) return;
    this.told = content;
    void this.connection.sendNotification(CHANGED, params);
    this.refreshLenses();
  }

  private refuse(asked: CompareHost["refused"]): void {
    if (asked === this.refused) return;
    this.refused = asked;
    this.refreshLenses();
  }

  /** Lenses of failures stand beside those of a comparison, and are asked for together. */
  refreshLenses(): void {
    if (this.canRefreshLenses)
      void this.connection.sendRequest(CodeLensRefreshRequest.type).catch(() => undefined);
  }

  lenses(path: string): CodeLens[] {
    const { comparison, refused } = this;
    if (refused?.path === path) {
      const start = { line: 0, character: 0 };
      const title = `not compared with ${refused.revision}: the workspace is not trusted`;
      const command = { title, command: "hopwright.compare", arguments: [refused.revision] };
      return [{ range: { start, end: start }, command }];
    }
    const file = this.designs().file(path);
    if (!comparison || !file) return [];
    // Offsets are those of the last comparison; the name is found where it stands now.
    return this.marks
      .filter((mark) => mark.file === path)
      .flatMap(({ hop, text }) => {
        const entry = file.declarations.find(({ key }) => key === `hop ${hop}`);
        if (!entry) return [];
        const { start } = entry.fact.statement;
        const command = {
          title: text,
          command: "hopwright.compare",
          arguments: [comparison.revision.name],
        };
        return [{ range: linesOf(file).range(start, start), command }];
      });
  }
}
