/** Drives the built language server over standard input and output and keeps time, as an editor's user would. */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import {
  createMessageConnection,
  type Diagnostic,
  type MessageConnection,
  type PublishDiagnosticsParams,
  StreamMessageReader,
  StreamMessageWriter,
} from "vscode-languageserver/node";
import { CHECK, STATUS, type StatusParams } from "../../server/lsp/protocol.js";
import { type Child, startNode } from "./process.js";

export type Wanted = (diagnostics: readonly Diagnostic[]) => boolean;

const PATIENCE_MS = 120_000;

export class Editor {
  private readonly diagnostics = new Map<string, readonly Diagnostic[]>();
  private readonly texts = new Map<string, { text: string; version: number }>();
  private readonly listeners = new Set<() => void>();
  private idle = false;

  private constructor(
    private readonly child: Child,
    private readonly connection: MessageConnection,
    private readonly folder: string,
  ) {}

  /** @returns the editor when the whole folder has been evaluated */
  static async start(server: string, folder: string): Promise<Editor> {
    const child = startNode([server, "lsp", "--stdio"], ["pipe", "pipe", "inherit"]);
    const { stdin, stdout } = child.process;
    const connection = createMessageConnection(
      new StreamMessageReader(stdout!),
      new StreamMessageWriter(stdin!),
    );
    const editor = new Editor(child, connection, folder);
    connection.onNotification(
      "textDocument/publishDiagnostics",
      ({ uri, diagnostics }: PublishDiagnosticsParams) => {
        editor.diagnostics.set(uri, diagnostics);
        editor.wake();
      },
    );
    connection.onNotification(STATUS, ({ waiting }: StatusParams) => {
      editor.idle = waiting === 0;
      editor.wake();
    });
    connection.onRequest("client/registerCapability", () => null);
    connection.onRequest("workspace/inlayHint/refresh", () => null);
    connection.listen();
    const uri = pathToFileURL(folder).href;
    await connection.sendRequest("initialize", {
      processId: process.pid,
      rootUri: uri,
      workspaceFolders: [{ uri, name: "bench" }],
      capabilities: { workspace: { inlayHint: { refreshSupport: true } } },
    });
    void connection.sendNotification("initialized", {});
    await editor.check();
    return editor;
  }

  open(file: string): void {
    const text = readFileSync(join(this.folder, file), "utf8");
    this.texts.set(file, { text, version: 1 });
    void this.connection.sendNotification("textDocument/didOpen", {
      textDocument: { uri: this.uri(file), languageId: "hopwright", version: 1, text },
    });
  }

  text(file: string): string {
    return this.texts.get(file)!.text;
  }

  of(file: string): readonly Diagnostic[] {
    return this.diagnostics.get(this.uri(file)) ?? [];
  }

  /** Sends one incremental change. */
  change(file: string, at: number, length: number, by: string): void {
    const state = this.texts.get(file)!;
    const range = { start: positionIn(state.text, at), end: positionIn(state.text, at + length) };
    state.text = state.text.slice(0, at) + by + state.text.slice(at + length);
    state.version++;
    this.idle = false;
    void this.connection.sendNotification("textDocument/didChange", {
      textDocument: { uri: this.uri(file), version: state.version },
      contentChanges: [{ range, text: by }],
    });
  }

  /** Waits until the diagnostics of a file are as wanted. @returns the time, as `performance.now` tells it */
  async shows(file: string, wanted: Wanted): Promise<number> {
    return this.waitFor(`diagnostics of ${file}`, () => wanted(this.of(file)));
  }

  /** Waits until nothing waits for evaluation any more after the last change. */
  async settles(): Promise<number> {
    return this.waitFor("the end of all evaluation", () => this.idle);
  }

  /** Asks for everything to be evaluated and waits for it. */
  async check(): Promise<void> {
    await this.connection.sendRequest(CHECK, {});
  }

  request<T>(method: string, file: string, rest: object): Promise<T> {
    return this.connection.sendRequest(method, { textDocument: { uri: this.uri(file) }, ...rest });
  }

  position(file: string, at: number): { line: number; character: number } {
    return positionIn(this.text(file), at);
  }

  /** @returns peak memory of the server, MB */
  async stop(): Promise<number> {
    await this.connection.sendRequest("shutdown");
    void this.connection.sendNotification("exit");
    const { peakRssMb } = await this.child.ended;
    this.connection.dispose();
    return peakRssMb;
  }

  private uri(file: string): string {
    return pathToFileURL(join(this.folder, file)).href;
  }

  private waitFor(what: string, isThere: () => boolean): Promise<number> {
    return new Promise((resolve, reject) => {
      const timer = setTimeout(() => reject(new Error(`waited in vain for ${what}`)), PATIENCE_MS);
      const look = () => {
        if (!isThere()) return;
        clearTimeout(timer);
        this.listeners.delete(look);
        resolve(performance.now());
      };
      this.listeners.add(look);
      look();
    });
  }

  private wake(): void {
    for (const look of [...this.listeners]) look();
  }
}

function positionIn(text: string, offset: number): { line: number; character: number } {
  let line = 0;
  let start = 0;
  for (let at = text.indexOf("\n"); at >= 0 && at < offset; at = text.indexOf("\n", at + 1)) {
    line++;
    start = at + 1;
  }
  return { line, character: offset - start };
}
