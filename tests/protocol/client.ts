/** Drives the built language server over standard input and output, as an editor does. */
import { type ChildProcess, spawn } from "node:child_process";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import {
  createMessageConnection,
  type Diagnostic,
  type DidChangeWatchedFilesRegistrationOptions,
  type FileSystemWatcher,
  type MessageConnection,
  type PublishDiagnosticsParams,
  type RegistrationParams,
  StreamMessageReader,
  StreamMessageWriter,
} from "vscode-languageserver/node";

const SERVER = join(import.meta.dirname, "../../dist/hopwright.cjs");

export class Editor {
  private readonly diagnostics = new Map<string, Diagnostic[]>();
  private readonly waiting = new Set<() => void>();
  private readonly texts = new Map<string, { text: string; version: number }>();
  readonly log: string[] = [];
  /** What the server asked to be told about, in the order of asking. */
  readonly watched: FileSystemWatcher[] = [];

  private constructor(
    private readonly child: ChildProcess,
    readonly connection: MessageConnection,
    private readonly folder: string,
  ) {}

  /** @param options as sent with `initialize` */
  static async start(folder: string, options: object = { trusted: true }): Promise<Editor> {
    const child = spawn(process.execPath, [SERVER, "lsp", "--stdio"], { stdio: ["pipe", "pipe", "pipe"] });
    const connection = createMessageConnection(
      new StreamMessageReader(child.stdout!),
      new StreamMessageWriter(child.stdin!),
    );
    const editor = new Editor(child, connection, folder);
    child.stderr!.on("data", (data: Buffer) => editor.log.push(String(data)));
    connection.onNotification("textDocument/publishDiagnostics", (params: PublishDiagnosticsParams) => {
      editor.diagnostics.set(params.uri, params.diagnostics);
      editor.wake();
    });
    connection.onNotification(
      "window/logMessage",
      (params: { message: string }) => void editor.log.push(params.message),
    );
    connection.onNotification("hopwright/status", () => editor.wake());
    connection.onRequest("client/registerCapability", ({ registrations }: RegistrationParams) => {
      for (const { method, registerOptions } of registrations) {
        if (method !== "workspace/didChangeWatchedFiles") continue;
        editor.watched.push(...(registerOptions as DidChangeWatchedFilesRegistrationOptions).watchers);
      }
      editor.wake();
      return null;
    });
    connection.onRequest("client/unregisterCapability", () => null);
    connection.onRequest("workspace/inlayHint/refresh", () => null);
    connection.listen();
    const uri = pathToFileURL(folder).href;
    await connection.sendRequest("initialize", {
      processId: process.pid,
      rootUri: uri,
      initializationOptions: options,
      workspaceFolders: [{ uri, name: "test" }],
      capabilities: {
        workspace: {
          workspaceFolders: true,
          inlayHint: { refreshSupport: true },
          didChangeWatchedFiles: { dynamicRegistration: true, relativePatternSupport: true },
        },
      },
    });
    await connection.sendNotification("initialized", {});
    return editor;
  }

  uri(file: string): string {
    return pathToFileURL(join(this.folder, file)).href;
  }

  open(file: string, text = readFileSync(join(this.folder, file), "utf8")): void {
    this.texts.set(file, { text, version: 1 });
    void this.connection.sendNotification("textDocument/didOpen", {
      textDocument: { uri: this.uri(file), languageId: "hopwright", version: 1, text },
    });
  }

  text(file: string): string {
    return this.texts.get(file)!.text;
  }

  /** Replaces the first occurrence, as typing would: one incremental change. */
  replace(file: string, what: string, by: string): void {
    const state = this.texts.get(file)!;
    const at = state.text.indexOf(what);
    if (at < 0) throw new Error(`${file} does not hold ${what}`);
    const range = { start: positionIn(state.text, at), end: positionIn(state.text, at + what.length) };
    state.text = state.text.slice(0, at) + by + state.text.slice(at + what.length);
    state.version++;
    void this.connection.sendNotification("textDocument/didChange", {
      textDocument: { uri: this.uri(file), version: state.version },
      contentChanges: [{ range, text: by }],
    });
  }

  /** Tells of files that changed on disk, as an editor's watcher does. */
  changedOnDisk(...files: string[]): Promise<void> {
    return this.connection.sendNotification("workspace/didChangeWatchedFiles", {
      changes: files.map((file) => ({ uri: this.uri(file), type: 2 })),
    });
  }

  close(file: string): void {
    void this.connection.sendNotification("textDocument/didClose", { textDocument: { uri: this.uri(file) } });
  }

  /** Position of `$0`-less text: where `what` begins, plus `by` characters. */
  position(file: string, what: string, by = 0): { line: number; character: number } {
    const { text } = this.texts.get(file)!;
    const at = text.indexOf(what);
    if (at < 0) throw new Error(`${file} does not hold ${what}`);
    return positionIn(text, at + by);
  }

  request<T>(method: string, file: string, rest: object = {}): Promise<T> {
    return this.connection.sendRequest(method, { textDocument: { uri: this.uri(file) }, ...rest });
  }

  of(file: string): readonly Diagnostic[] {
    return this.diagnostics.get(this.uri(file)) ?? [];
  }

  /** Waits until everything known has been evaluated and published. */
  async settled(): Promise<void> {
    await this.connection.sendRequest("hopwright/check", {});
  }

  /** Waits until the diagnostics of a file are as wanted. */
  async until(
    file: string,
    wanted: (diagnostics: readonly Diagnostic[]) => boolean,
    ms = 15_000,
  ): Promise<readonly Diagnostic[]> {
    const end = Date.now() + ms;
    while (!wanted(this.of(file))) {
      if (Date.now() > end)
        throw new Error(
          `waited in vain; ${file} has ${JSON.stringify(this.of(file).map(({ code, message }) => [code, message]))}; log: ${this.log.join("")}`,
        );
      await new Promise<void>((resolve) => {
        const timer = setTimeout(resolve, 200);
        this.waiting.add(() => {
          clearTimeout(timer);
          resolve();
        });
      });
    }
    return this.of(file);
  }

  async stop(): Promise<void> {
    await this.connection.sendRequest("shutdown");
    await this.connection.sendNotification("exit");
    this.connection.dispose();
    this.child.kill();
  }

  private wake(): void {
    for (const resolve of this.waiting) resolve();
    this.waiting.clear();
  }
}

function positionIn(text: string, offset: number): { line: number; character: number } {
  const before = text.slice(0, offset).split("\n");
  return { line: before.length - 1, character: before.at(-1)!.length };
}

export function codes(diagnostics: readonly Diagnostic[]): string[] {
  return diagnostics.map(({ code }) => String(code)).sort();
}
