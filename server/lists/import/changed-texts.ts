/** Facts stated in the files of a design, as the texts that come of it. */

import { applyEdits, type TextEdit } from "../../../language/editor/text-range.js";
import { changeEdits, withoutTouching } from "../../../language/lists/edits.js";
import type { DesignModel } from "../../../language/model/design-model.js";
import type { ListedChange } from "../../../shared/lists/state.js";
import { lineOf } from "../../../shared/lists/state.js";
import { readHopFile } from "../../files/hop-files.js";
import { isOwn } from "../../files/own-file.js";

export interface ChangedText {
  readonly path: string;
  readonly before: string;
  readonly after: string;
}

/** @param lookingAt the design as it has to be looked at to find what an address speaks of */
export function changedTexts(
  lookingAt: (address: string) => DesignModel,
  changes: readonly ListedChange[],
): { readonly changed: readonly ChangedText[]; readonly notChanged: readonly string[] } {
  const notChanged: string[] = [];
  const edits: TextEdit[] = [];
  const own = new Map<string, boolean>();
  for (const change of changes) {
    const model = lookingAt(change.at);
    const made = changeEdits(model, change);
    const said = `${change.at}: ${change.statement.word === "" ? "title" : lineOf(change.statement)}`;
    if (!made) {
      notChanged.push(`${said}: it finds no place in the text, or several`);
      continue;
    }
    const [edit] = made;
    if (!edit) continue;
    if (!own.has(edit.file)) own.set(edit.file, isOwn(model, edit.file));
    if (own.get(edit.file)) edits.push(...made);
    else
      notChanged.push(
        `${said}: ${edit.file} is no file of the design's own folder, or holds an unfinished merge`,
      );
  }
  const changed: ChangedText[] = [];
  for (const [path, own] of Map.groupBy(withoutTouching(edits), ({ file }) => file)) {
    const file = readHopFile(path);
    if (!("text" in file)) {
      notChanged.push(`${path}: ${file.message}`);
      continue;
    }
    const before = file.text;
    const inLineEnds = (text: string) => (before.includes("\r\n") ? text.replace(/\r?\n/g, "\r\n") : text);
    const after = applyEdits(
      before,
      own.map((edit) => ({ ...edit, newText: inLineEnds(edit.newText) })),
    );
    if (after !== before) changed.push({ path, before, after });
  }
  return { changed, notChanged };
}
