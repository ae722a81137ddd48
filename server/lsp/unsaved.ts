/**
 * Documents that no file holds yet. Each is judged together with a copy of a design, which it does not change: what it
 * declares counts in the copy alone.
 */
import { DesignModel } from "../../language/model/design-model.js";
import { readSource, type SourceFile } from "../../language/model/source-file.js";
import { sizeProblem } from "../files/hop-files.js";
import { DesignSession, type SessionOptions } from "../session/design-session.js";

/** Documents go by their URI as long as they have no path. */
export function isUnsaved(path: string): boolean {
  return path.startsWith("untitled:");
}

interface Copy {
  readonly of: DesignModel | undefined;
  readonly session: DesignSession;
}

export class UnsavedDocuments {
  private readonly documents = new Map<string, SourceFile>();
  private readonly copies = new Map<string, Copy>();

  /** @param design what a document is judged with; undefined: with nothing */
  constructor(
    private readonly design: () => DesignModel | undefined,
    private readonly options: () => SessionOptions,
  ) {}

  edit(path: string, text: string): void {
    // Of a text that is too large for a design file nothing is said until it is saved.
    this.documents.set(path, readSource(path, sizeProblem(path, text.length) ? "" : text));
  }

  close(path: string): void {
    this.documents.delete(path);
    this.copies.delete(path);
  }

  file(path: string): SourceFile | undefined {
    return this.documents.get(path);
  }

  sessions(): ReadonlyMap<string, DesignSession> {
    return new Map(
      [...this.documents.keys()].flatMap((path) => this.sessionOf(path).map((one) => [path, one])),
    );
  }

  /** None: there is no such document. */
  sessionOf(path: string): readonly DesignSession[] {
    const document = this.documents.get(path);
    if (!document) return [];
    const of = this.design();
    let copy = this.copies.get(path);
    if (copy?.of !== of || copy === undefined) {
      // The same folder: what the document names is looked for from where it will be saved.
      const model = new DesignModel(of?.root ?? "");
      this.copies.set(path, (copy = { of, session: new DesignSession(model, this.options()) }));
    }
    follow(copy.session.model, [...(of?.allFiles() ?? []), document]);
    return [copy.session];
  }
}

/** Puts in what differs, and takes out what is gone. */
function follow(model: DesignModel, files: readonly SourceFile[]): void {
  const wanted = new Set(files.map(({ path }) => path));
  for (const { path } of [...model.allFiles()]) if (!wanted.has(path)) model.removeFile(path);
  for (const file of files) if (model.file(file.path) !== file) model.setFile(file);
}
