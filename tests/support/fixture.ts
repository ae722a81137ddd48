/**
 * Designs in one string, for tests of what the editor does with text. `//- name.hop` begins a file (without
 * it there is one, `main.hop`), `$0` is the caret, and `//  ^^^^ text` under a line marks the columns of
 * the line above it. Marks stay in the text as the comments they are; the caret does not.
 */
import { DesignModel } from "../../language/model/design-model.js";
import { readSource } from "../../language/model/source-file.js";

export interface Mark {
  readonly file: string;
  readonly start: number;
  readonly end: number;
  readonly text: string;
}

export interface Fixture {
  readonly model: DesignModel;
  /** File of the caret, or the first one. */
  readonly file: string;
  /** Offset of the caret; -1 without one. */
  readonly offset: number;
  readonly marks: readonly Mark[];
}

export const ROOT = "/design";

export function fixture(source: string): Fixture {
  const model = new DesignModel(ROOT);
  const marks: Mark[] = [];
  let file: string | undefined;
  let offset = -1;
  for (const { path, raw } of filesOf(source)) {
    const caret = raw.indexOf("$0");
    const text = caret < 0 ? raw : raw.slice(0, caret) + raw.slice(caret + 2);
    if (caret >= 0) {
      if (offset >= 0) throw new Error("a fixture has one caret");
      file = path;
      offset = caret;
    }
    file ??= path;
    marks.push(...marksOf(path, text));
    model.setFile(readSource(path, text));
  }
  return { model, file: file!, offset, marks };
}

function filesOf(source: string): { path: string; raw: string }[] {
  const trimmed = source.replace(/^\n/, "");
  const parts = trimmed.split(/^\/\/- (\S+)\n/m);
  if (parts.length === 1) return [{ path: `${ROOT}/main.hop`, raw: trimmed }];
  const files: { path: string; raw: string }[] = [];
  for (let i = 1; i < parts.length; i += 2) files.push({ path: `${ROOT}/${parts[i]}`, raw: parts[i + 1]! });
  return files;
}

function marksOf(file: string, text: string): Mark[] {
  const marks: Mark[] = [];
  let lineStart = 0;
  let marked = 0;
  for (const line of text.split("\n")) {
    const found = /^(\s*\/\/\s*)(\^+) ?(.*)$/.exec(line);
    if (found) {
      const column = found[1]!.length;
      marks.push({
        file,
        start: marked + column,
        end: marked + column + found[2]!.length,
        text: found[3]!.trim(),
      });
    } else marked = lineStart;
    lineStart += line.length + 1;
  }
  return marks;
}

/** Marks as one comparable text each, in the order of the text. */
export function shown(marks: Iterable<Mark>, model: DesignModel): string[] {
  return [...marks]
    .sort((a, b) => a.file.localeCompare(b.file) || a.start - b.start || a.end - b.end)
    .map(({ file, start, end, text }) => {
      const source = model.file(file)?.text ?? "";
      const line = source.slice(0, start).split("\n").length;
      return `${file.slice(ROOT.length + 1)}:${line} ${source.slice(start, end)}${text ? ` | ${text}` : ""}`;
    });
}
