/**
 * Registers what the editor asks about a document. Each handler looks the answer up in language/ and
 * converts offsets and paths to the protocol's positions and URIs; nothing is worked out here.
 */
import {
  CompletionItemKind,
  type Connection,
  DocumentHighlightKind,
  type DocumentSymbol,
  FoldingRangeKind,
  InlayHintKind,
  InsertTextFormat,
  type Location,
  MarkupKind,
  ResponseError,
  SemanticTokensBuilder,
  SymbolKind,
  type TextEdit,
  type WorkspaceEdit,
} from "vscode-languageserver";
import { completionAt } from "../../language/editor/completion.js";
import { foldingRanges } from "../../language/editor/folding.js";
import { hoverAt } from "../../language/editor/hover.js";
import { inlayHints } from "../../language/editor/inlay-hints.js";
import { builtInPlanAt, definitionAt, highlightsAt, referencesAt } from "../../language/editor/navigation.js";
import { declaredIn } from "../../language/editor/occurrences.js";
import type { CompletionKind } from "../../language/editor/proposal.js";
import { prepareRename, renameAt } from "../../language/editor/rename.js";
import { semanticTokens, TOKEN_MODIFIERS } from "../../language/editor/semantic-tokens.js";
import * as symbols from "../../language/editor/symbols.js";
import { TOKEN_TYPES } from "../../language/editor/token-types.js";
import { formatText } from "../../language/format/format.js";
import { readSource, type SourceFile } from "../../language/model/source-file.js";
import { sizeProblem } from "../files/hop-files.js";
import { linesOf } from "../findings/lines.js";
import type { DesignSession } from "../session/design-session.js";
import { numbersTried } from "./channel-figures.js";
import { registerCodeActions } from "./code-actions.js";
import type { Designs } from "./designs.js";
import { documentLinks } from "./document-links.js";
import { folderEntries } from "./folder-entries.js";
import { isJudged, locationOf, pathOf, uriOf } from "./locations.js";
import { registerProposing } from "./propose-channels.js";
import { planPlace } from "./reference-pages.js";
import { tableHeads } from "./table-heads.js";
import { isUnsaved } from "./unsaved.js";

export const SEMANTIC_LEGEND = { tokenTypes: [...TOKEN_TYPES], tokenModifiers: [...TOKEN_MODIFIERS] };

const COMPLETION_KIND: Readonly<Record<CompletionKind, CompletionItemKind>> = {
  property: CompletionItemKind.Property,
  value: CompletionItemKind.EnumMember,
  unit: CompletionItemKind.Unit,
  name: CompletionItemKind.Reference,
  rule: CompletionItemKind.Constant,
  label: CompletionItemKind.Keyword,
};

/** A document in the design that answers for it, and the offset that was asked about. */
interface Place {
  readonly file: SourceFile;
  readonly session: DesignSession;
  readonly offset: number;
}

interface AtPosition {
  readonly textDocument: { readonly uri: string };
  readonly position: { readonly line: number; readonly character: number };
}

/** How a request finds what it asks about. */
interface Asked {
  readonly designs: () => Designs;
  fileOf(params: { readonly textDocument: { readonly uri: string } }): SourceFile | undefined;
  /** A shared catalogue belongs to several designs; the first answers unless all are asked. */
  places(params: AtPosition): Place[];
  place(params: AtPosition): Place | undefined;
}

function askedOf(designs: () => Designs): Asked {
  const fileOf: Asked["fileOf"] = ({ textDocument }) => designs().file(pathOf(textDocument.uri));
  const places = (params: AtPosition): Place[] => {
    const file = fileOf(params);
    if (!file) return [];
    const offset = linesOf(file).offset(params.position);
    return designs()
      .sessionsOf(file.path)
      .map((session) => ({ file, session, offset }));
  };
  return { designs, fileOf, places, place: (params) => places(params)[0] };
}

function locations(
  session: DesignSession,
  ranges: readonly { readonly file: string; readonly start: number; readonly end: number }[],
): Location[] {
  return ranges.flatMap(({ file, start, end }) => {
    const source = session.model.file(file);
    return source ? [locationOf(source, start, end)] : [];
  });
}

/** @param textOf of any open document, one that no design has too */
export function registerFeatures(
  connection: Connection,
  designs: () => Designs,
  textOf: (uri: string) => string | undefined,
  /** Whether the client asks its user about parts of an edit. */
  confirmsEdits: () => boolean,
): void {
  const asked = askedOf(designs);
  registerCompletion(connection, asked);
  registerNavigation(connection, asked);
  registerRename(connection, asked, confirmsEdits);
  registerSymbols(connection, asked);
  registerColours(connection, asked, textOf);
  registerHints(connection, asked);
  registerLayout(connection, asked);
  registerCodeActions(connection, designs);
  registerProposing(connection, designs);
}

/** What may be written at the caret, and what stands there. */
function registerCompletion(connection: Connection, { place }: Asked): void {
  connection.onCompletion(async (params, token) => {
    const at = place(params);
    if (!at) return [];
    const lines = linesOf(at.file);
    const tried = await numbersTried(at.session, at.file.path, at.offset, token);
    // The text that was asked about is another one by now.
    if (at.session.model.file(at.file.path) !== at.file) return [];
    const { items, cut } = completionAt(at.session.model, at.file.path, at.offset, {
      ...(tried !== "late" && tried && { tried }),
      results: (name) => at.session.result(name),
      list: folderEntries,
      heads: tableHeads,
    });
    return {
      // With the next letter the figures may be there.
      isIncomplete: cut || tried === "late",
      items: items.map((item) => ({
        label: item.label,
        kind: COMPLETION_KIND[item.kind],
        detail: item.detail,
        documentation:
          item.documentation === undefined
            ? undefined
            : { kind: MarkupKind.Markdown, value: item.documentation },
        sortText: item.sortOrder.toString().padStart(6, "0"),
        insertTextFormat: item.snippet ? InsertTextFormat.Snippet : InsertTextFormat.PlainText,
        textEdit: { range: lines.range(item.replace.start, item.replace.end), newText: item.insertText },
      })),
    };
  });

  connection.onHover((params) => {
    const at = place(params);
    const hover =
      at &&
      hoverAt(
        at.session.model,
        at.file.path,
        at.offset,
        (name) => at.session.felt(name),
        () => at.session.carried(),
      );
    if (!at || !hover) return null;
    return {
      contents: { kind: MarkupKind.Markdown, value: hover.markdown },
      range: linesOf(at.file).range(hover.start, hover.end),
    };
  });
}

/** Where a name is declared and used, and what a path leads to. */
function registerNavigation(connection: Connection, { fileOf, places, place }: Asked): void {
  connection.onDefinition((params) => {
    const at = place(params);
    if (!at) return [];
    const { model } = at.session;
    const plan = builtInPlanAt(model, at.file.path, at.offset);
    const listed = plan === undefined ? undefined : planPlace(plan);
    if (listed) {
      const start = { line: listed.line, character: 0 };
      return [{ uri: listed.uri, range: { start, end: start } }];
    }
    return locations(at.session, definitionAt(model, at.file.path, at.offset));
  });

  connection.onDocumentLinks((params) => {
    const file = fileOf(params);
    return file ? documentLinks(file) : [];
  });

  connection.onReferences((params) => {
    const found = places(params).flatMap(({ file, session, offset }) =>
      locations(session, referencesAt(session.model, file.path, offset, params.context)),
    );
    return [...new Map(found.map((location) => [JSON.stringify(location), location])).values()];
  });

  connection.onDocumentHighlight((params) => {
    const at = place(params);
    if (!at) return [];
    return highlightsAt(at.session.model, at.file.path, at.offset).map(({ start, end, kind }) => ({
      range: linesOf(at.file).range(start, end),
      kind: kind === "write" ? DocumentHighlightKind.Write : DocumentHighlightKind.Read,
    }));
  });
}

function registerRename(
  connection: Connection,
  { places, place }: Asked,
  confirmsEdits: () => boolean,
): void {
  connection.onPrepareRename((params) => {
    const at = place(params);
    if (!at) return null;
    const prepared = prepareRename(at.session.model, at.file.path, at.offset);
    if ("problem" in prepared) throw new ResponseError(REFUSED, prepared.problem);
    return {
      range: linesOf(at.file).range(prepared.range.start, prepared.range.end),
      placeholder: prepared.name,
    };
  });

  connection.onRenameRequest((params): WorkspaceEdit => {
    const edits = new Map<string, NamedEdit>();
    for (const { file, session, offset } of places(params)) {
      const answer = renameAt(session.model, file.path, offset, params.newName);
      if ("problem" in answer) throw new ResponseError(REFUSED, answer.problem);
      const along = confirmsEdits() ? answer.along : [];
      for (const [edit, isAlong] of [
        ...answer.edits.map((one) => [one, false] as const),
        ...along.map((one) => [one, true] as const),
      ]) {
        if (isUnsaved(file.path) && edit.file !== file.path) throw new ResponseError(REFUSED, IN_DESIGN_TOO);
        const source = session.model.file(edit.file);
        const key = `${edit.file}:${edit.start}`;
        if (!source || edits.has(key)) continue;
        const range = linesOf(source).range(edit.start, edit.end);
        edits.set(key, { uri: uriOf(edit.file), edit: { range, newText: edit.newText }, isAlong });
      }
    }
    return workspaceEdit([...edits.values()]);
  });
}

/** The outline of a document, of a folder of designs, and what folds. */
function registerSymbols(connection: Connection, { designs, fileOf }: Asked): void {
  connection.onDocumentSymbol((params) => {
    const file = fileOf(params);
    return file ? symbols.documentSymbols(file).map((symbol) => documentSymbol(file, symbol)) : [];
  });

  connection.onWorkspaceSymbol(({ query }) => {
    const found = designs()
      .allSessions()
      .flatMap((session) =>
        symbols.workspaceSymbols(session.model, query).flatMap((symbol) => {
          const source = session.model.file(symbol.file);
          if (!source) return [];
          const location = locationOf(source, symbol.start, symbol.end);
          return [
            {
              name: symbol.name,
              kind: SymbolKind[symbols.signOf(symbol.kind)],
              location,
              containerName: symbol.detail,
            },
          ];
        }),
      );
    return [...new Map(found.map((symbol) => [JSON.stringify(symbol.location), symbol])).values()];
  });

  connection.onFoldingRanges((params) => {
    const file = fileOf(params);
    if (!file) return [];
    const lines = linesOf(file);
    return foldingRanges(file).map(({ start, end, kind }) => ({
      startLine: lines.position(start).line,
      endLine: lines.position(end).line,
      kind: kind === "comment" ? FoldingRangeKind.Comment : undefined,
    }));
  });
}

function registerColours(
  connection: Connection,
  { fileOf, place }: Asked,
  textOf: (uri: string) => string | undefined,
): void {
  connection.languages.semanticTokens.on((params) => {
    const file = fileOf(params) ?? onlyColoured(params.textDocument.uri, textOf);
    const model = place({ ...params, position: { line: 0, character: 0 } })?.session.model;
    const builder = new SemanticTokensBuilder();
    if (!file) return builder.build();
    const lines = linesOf(file);
    for (const token of semanticTokens(file, undefined, model && declaredIn(model))) {
      const { line, character } = lines.position(token.start);
      const modifiers = token.modifiers.reduce(
        (bits, modifier) => bits | (1 << TOKEN_MODIFIERS.indexOf(modifier)),
        0,
      );
      builder.push(line, character, token.length, TOKEN_TYPES.indexOf(token.type), modifiers);
    }
    return builder.build();
  });
}

function registerHints(connection: Connection, { place }: Asked): void {
  connection.languages.inlayHint.on(({ textDocument, range }) => {
    const at = place({ textDocument, position: range.start });
    if (!at) return [];
    const lines = linesOf(at.file);
    const asked = { start: at.offset, end: lines.offset(range.end) };
    const hints = inlayHints(
      at.session.model,
      at.file.path,
      asked,
      (name) => at.session.result(name),
      () => at.session.carried(),
    );
    // Hints of one place are parts of one hint, or they would run into each other.
    return [...Map.groupBy(hints, ({ offset }) => offset)].map(([offset, together]) => ({
      position: lines.position(offset),
      label: together.flatMap(({ text, tooltip }, i) => [
        ...(i > 0 ? [{ value: " · " }] : []),
        { value: text, tooltip },
      ]),
      kind: InlayHintKind.Parameter,
      paddingLeft: true,
    }));
  });
}

function registerLayout(connection: Connection, { fileOf }: Asked): void {
  connection.onDocumentFormatting((params): TextEdit[] => {
    const file = fileOf(params);
    const formatted = file && formatText(file.text);
    if (!file || !formatted?.ok || formatted.text === file.text) return [];
    return [{ range: linesOf(file).range(0, file.text.length), newText: formatted.text }];
  });
}

/** What is shown of a revision, or beside one. */
function onlyColoured(uri: string, textOf: (uri: string) => string | undefined): SourceFile | undefined {
  const text = isJudged(uri) ? undefined : textOf(uri);
  return text === undefined || sizeProblem(uri, text.length) ? undefined : readSource(uri, text);
}

const IN_DESIGN_TOO = "the design has this name too; save this document in it, or rename there";

interface NamedEdit {
  readonly uri: string;
  readonly edit: TextEdit;
  /** Not asked for, but likely wanted. */
  readonly isAlong: boolean;
}

/** What goes along is confirmed by the user before anything is written. */
function workspaceEdit(edits: readonly NamedEdit[]): WorkspaceEdit {
  const byFile = [...Map.groupBy(edits, ({ uri }) => uri)];
  if (!edits.some(({ isAlong }) => isAlong))
    return { changes: Object.fromEntries(byFile.map(([uri, of]) => [uri, of.map(({ edit }) => edit)])) };
  return {
    documentChanges: byFile.map(([uri, of]) => ({
      textDocument: { uri, version: null },
      edits: of.map(({ edit, isAlong }) => (isAlong ? { ...edit, annotationId: ALONG } : edit)),
    })),
    changeAnnotations: {
      [ALONG]: {
        label: "Hops that carry the name of the site",
        description: "their names change with it",
        needsConfirmation: true,
      },
    },
  };
}

const ALONG = "hops";

/** Nothing went wrong in the server: the request cannot be granted, and the message says why. */
const REFUSED = -32803;

function documentSymbol(file: SourceFile, symbol: symbols.DocumentSymbol): DocumentSymbol {
  const lines = linesOf(file);
  return {
    name: symbol.name,
    detail: symbol.detail,
    kind: SymbolKind[symbols.signOf(symbol.kind)],
    range: lines.range(symbol.start, symbol.end),
    selectionRange: lines.range(symbol.nameRange.start, symbol.nameRange.end),
    children: symbol.children.map((child) => documentSymbol(file, child)),
  };
}
