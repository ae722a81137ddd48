/** Errors of the design on its papers: whoever holds one has nothing else, and must not take it for sound. */
import type { Block, Inline, ReportFinding, Section, Table } from "../document/document.js";
import { ERRORS } from "./kinds.js";
import type { SheetWords } from "./words/sheet-words.js";

export interface ErrorsOf {
  /** Undefined: what the paper itself is about. */
  readonly about?: { readonly kind: "hop" | "site" | "demand"; readonly name: string };
  readonly findings: readonly ReportFinding[];
}

/** Neither mended nor accepted. */
export function errorsAmong(findings: readonly ReportFinding[]): readonly ReportFinding[] {
  return findings.filter(({ severity, accepted }) => severity === "error" && accepted === undefined);
}

/** Right behind the cautions of a sheet that somebody works by; none where there is no error. */
export function errorsSection(all: readonly ErrorsOf[], words: SheetWords): readonly Section[] {
  const table = errorsTable(all, words);
  if (table === undefined) return [];
  const { errors } = words;
  return [
    {
      id: ERRORS,
      title: errors.title,
      blocks: [{ type: "paragraph", text: withCode(errors.told) }, table],
    },
  ];
}

/** Undefined: there is no error among them. */
export function errorsTable(all: readonly ErrorsOf[], words: SheetWords): Table | undefined {
  const { acceptance, book, errors } = words;
  const withAbout = all.some(({ about }) => about !== undefined);
  const rows = all.flatMap(({ about, findings }) =>
    errorsAmong(findings).map(({ rule, message }) => ({
      cells: [
        ...(withAbout
          ? [about === undefined ? "" : `${book.exceptions.kinds[about.kind]} ${about.name}`]
          : []),
        { text: rule, mark: "code" } as Inline,
        message,
      ],
    })),
  );
  if (rows.length === 0) return undefined;
  const titles = [...(withAbout ? [errors.about] : []), acceptance.rule, acceptance.finding];
  return { type: "table", columns: titles.map((title) => ({ title })), rows };
}

/** On a paper of the whole design: how many there are, and what tells them. */
export function errorCountSection(count: number, words: SheetWords): readonly Section[] {
  if (count === 0) return [];
  const { errors } = words;
  const text: Inline = [{ text: errors.counted(count), mark: "strong" }, " ", ...withCode(errors.tells)];
  const told: Block = { type: "paragraph", text };
  return [{ id: ERRORS, title: errors.title, blocks: [told] }];
}

function withCode(text: string) {
  return text.split("`").map((part, at) => (at % 2 ? { text: part, mark: "code" as const } : part));
}
