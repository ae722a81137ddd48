/** What the parameters of each message that the server handles must hold, as far as it reads them. */
import { CHECK, COMPARE, PLACE, REPORT, REVISIONS, TRUSTED } from "../protocol.js";

/** @returns what is wrong with the value, which stands at the given path; undefined: nothing */
export type Shape = (value: unknown, at: string) => string | undefined;

const anything: Shape = () => undefined;

const nothing: Shape = (value, at) =>
  value === undefined || value === null || typeof value === "object" ? undefined : `${at} must be left out`;

const text: Shape = (value, at) => (typeof value === "string" ? undefined : `${at} must be a string`);

/** A place that is nowhere is borne: it is the nearest that there is. */
const number: Shape = (value, at) => (typeof value === "number" ? undefined : `${at} must be a number`);

const identifier: Shape = (value, at) =>
  typeof value === "string" || typeof value === "number" ? undefined : `${at} must be a string or a number`;

function optional(shape: Shape): Shape {
  return (value, at) => (value === undefined || value === null ? undefined : shape(value, at));
}

function list(of: Shape): Shape {
  return (value, at) => {
    if (!Array.isArray(value)) return `${at} must be a list`;
    for (const [index, item] of value.entries()) {
      const wrong = of(item, `${at}[${index}]`);
      if (wrong !== undefined) return wrong;
    }
    return undefined;
  };
}

function fields(of: Readonly<Record<string, Shape>>): Shape {
  return (value, at) => {
    if (typeof value !== "object" || value === null || Array.isArray(value)) return `${at} must be an object`;
    for (const [name, shape] of Object.entries(of)) {
      const wrong = shape((value as Record<string, unknown>)[name], `${at}.${name}`);
      if (wrong !== undefined) return wrong;
    }
    return undefined;
  };
}

const position = fields({ line: number, character: number });
const range = fields({ start: position, end: position });
const named = { uri: text };
const folder = fields(named);
const document = { textDocument: fields(named) };
const ofDocument = fields(document);
const atPosition = fields({ ...document, position });

/** Requests, which are answered with what is wrong. */
export const REQUESTS: ReadonlyMap<string, Shape> = new Map([
  [
    "initialize",
    fields({
      processId: optional(number),
      rootUri: optional(text),
      workspaceFolders: optional(list(folder)),
      initializationOptions: anything,
      capabilities: fields({
        workspace: optional(
          fields({
            didChangeWatchedFiles: optional(fields({})),
            workspaceEdit: optional(fields({})),
            inlayHint: optional(fields({})),
            codeLens: optional(fields({})),
          }),
        ),
        window: optional(fields({})),
        general: optional(fields({})),
      }),
    }),
  ],
  ["shutdown", nothing],
  ["textDocument/completion", atPosition],
  ["textDocument/hover", atPosition],
  ["textDocument/definition", atPosition],
  ["textDocument/documentLink", ofDocument],
  [
    "textDocument/references",
    fields({ ...document, position, context: fields({ includeDeclaration: anything }) }),
  ],
  ["textDocument/documentHighlight", atPosition],
  ["textDocument/prepareRename", atPosition],
  ["textDocument/rename", fields({ ...document, position, newName: text })],
  ["textDocument/documentSymbol", ofDocument],
  ["textDocument/foldingRange", ofDocument],
  ["textDocument/semanticTokens/full", ofDocument],
  ["textDocument/inlayHint", fields({ ...document, range })],
  ["textDocument/formatting", ofDocument],
  [
    "textDocument/codeAction",
    fields({ ...document, range, context: fields({ diagnostics: list(fields({})) }) }),
  ],
  ["textDocument/codeLens", ofDocument],
  ["workspace/executeCommand", fields({ command: text, arguments: optional(list(anything)) })],
  ["workspace/symbol", fields({ query: text })],
  [CHECK, optional(fields({ uri: optional(text) }))],
  [
    REPORT,
    fields({
      uri: text,
      line: optional(number),
      character: optional(number),
      hop: optional(text),
      site: optional(text),
    }),
  ],
  [PLACE, fields({ uri: text, at: text })],
  [COMPARE, fields({ uri: text, revision: optional(text) })],
  [REVISIONS, fields({ uri: text })],
]);

/** Notifications, which are left unheeded when something is wrong. */
export const NOTIFICATIONS: ReadonlyMap<string, Shape> = new Map([
  ["initialized", nothing],
  ["exit", nothing],
  ["$/cancelRequest", fields({ id: identifier })],
  ["$/setTrace", fields({ value: text })],
  ["window/workDoneProgress/cancel", fields({ token: identifier })],
  [
    "textDocument/didOpen",
    fields({ textDocument: fields({ ...named, languageId: text, version: number, text }) }),
  ],
  [
    "textDocument/didChange",
    fields({
      textDocument: fields({ ...named, version: number }),
      contentChanges: list(fields({ range: optional(range), text })),
    }),
  ],
  ["textDocument/didClose", ofDocument],
  ["textDocument/didSave", ofDocument],
  ["workspace/didChangeConfiguration", anything],
  ["workspace/didChangeWatchedFiles", fields({ changes: list(folder) })],
  [
    "workspace/didChangeWorkspaceFolders",
    fields({ event: fields({ added: list(folder), removed: list(folder) }) }),
  ],
  [TRUSTED, nothing],
]);
