/** Texts of a design's files that are edited, and written only when all of them are done. */
import type { QuickFix } from "../../../language/editor/fixes/fix.js";
import { applyEdits } from "../../../language/editor/text-range.js";
import type { Project } from "../../../language/model/project.js";
import { readSource } from "../../../language/model/source-file.js";
import { readHopFile } from "../../files/hop-files.js";

export interface ChangedText {
  readonly path: string;
  readonly before: string;
  readonly after: string;
}

/** Texts as they stand in the files: what reading makes of line ends stays out of them. */
export class Texts {
  private readonly first = new Map<string, string>();
  private readonly now = new Map<string, string>();

  constructor(private readonly project: Project) {}

  /** @returns what takes it back */
  apply(fixes: readonly Pick<QuickFix, "edits">[]): () => void {
    const edits = Map.groupBy(
      fixes.flatMap((fix) => fix.edits),
      ({ file }) => file,
    );
    const was = [...edits.keys()].map((path) => [path, this.text(path)] as const);
    for (const [path, own] of edits) {
      const text = this.text(path);
      const inLineEnds = (newText: string) =>
        text.includes("\r\n") ? newText.replace(/\r?\n/g, "\r\n") : newText;
      this.set(
        path,
        applyEdits(
          text,
          own.map((edit) => ({ ...edit, newText: inLineEnds(edit.newText) })),
        ),
      );
    }
    return () => {
      for (const [path, text] of was) this.set(path, text);
    };
  }

  changed(): readonly ChangedText[] {
    return [...this.now]
      .map(([path, after]) => ({ path, before: this.first.get(path)!, after }))
      .filter(({ before, after }) => before !== after);
  }

  private text(path: string): string {
    const known = this.now.get(path);
    if (known !== undefined) return known;
    const file = readHopFile(path);
    const read = "text" in file ? file.text : this.project.file(path)!.text;
    this.first.set(path, read);
    return read;
  }

  private set(path: string, text: string): void {
    this.now.set(path, text);
    this.project.setFile(readSource(path, text));
  }
}
