/** A design as edits would have it, found out beside it: the design itself stays as it is. */
import { applyEdits, type TextEdit } from "../editor/text-range.js";
import type { DesignModel } from "./design-model.js";
import { readSource, type SourceFile } from "./source-file.js";

/**
 * What is asked of a copy with the edits. They are taken back before anything else runs, so that attempts of several
 * requests do not see each other; what they do not touch stays resolved from one attempt to the next.
 */
export function withEdits<T>(
  model: DesignModel,
  edits: readonly TextEdit[],
  ask: (edited: DesignModel) => T,
): T {
  const twin = twinOf(model);
  const touched: SourceFile[] = [];
  for (const [path, own] of Map.groupBy(edits, ({ file }) => file)) {
    const file = model.file(path);
    if (!file) continue;
    touched.push(file);
    twin.setFile(readSource(path, applyEdits(file.text, own)));
  }
  try {
    return ask(twin);
  } finally {
    for (const file of touched) twin.setFile(file);
  }
}

const twins = new WeakMap<DesignModel, DesignModel>();

/** A second model of the same files, kept for the next attempt: only files that differ are put in anew. */
function twinOf(model: DesignModel): DesignModel {
  let twin = twins.get(model);
  if (!twin) twins.set(model, (twin = model.fork()));
  if (twin.view !== model.view) twin.setView(model.view);
  twin.setFiles(model.files());
  return twin;
}
