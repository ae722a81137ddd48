/** `explain --arrangement`, `--card` and the other kinds of the catalogue: the page that teaches it, in the terminal. */
import { lessonOf } from "../../../language/docs/arrangement-pages.js";
import { aroundParts, lessonOfPart } from "../../../language/docs/part-lesson.js";
import { NAMED_KINDS } from "../../../language/schema/kinds.js";
import { nearest } from "../../../shared/format/nearest.js";
import { ARRANGEMENTS, arrangementByName } from "../../../shared/radio/arrangements.js";
import type { Lesson } from "../../../shared/report/teach/lesson.js";
import { arrangementsMeant } from "../../../shared/report/teach/meant-arrangements.js";
import type { TaughtKind } from "../../../shared/report/teach/part-rules.js";
import { CommandError } from "../../command-error.js";
import { designFolder } from "../../findings/judged-folder.js";
import { isTaught } from "../../report/catalogue-pages.js";
import { loadProject } from "../../session/load.js";
import { FORMATS, formatNamed } from "../formats.js";
import { lessonJson } from "../print/lesson-json.js";
import { lessonText } from "../print/lesson-text.js";
import { noteTime } from "../print/note-time.js";
import { paintStdout, print } from "../streams.js";

/** @param words as the language writes an arrangement; words that fit several name them */
export async function explainArrangement(words: string, format: string): Promise<void> {
  const facts = arrangementByName(words.trim().replaceAll(/\s+/g, " "));
  if (facts === undefined) throw noArrangement(words);
  await printLesson(lessonOf(facts), format);
}

/** More than these are counted. */
const MOST_MEANT = 6;

function noArrangement(words: string): CommandError {
  const meant = arrangementsMeant(words);
  if (meant.length > 0) {
    const told = meant.slice(0, MOST_MEANT).map(({ name, title }) => `"${name}" (${title})`);
    const more = meant.length - told.length;
    const rest = more > 0 ? `; and ${more} more` : "";
    return new CommandError(`${words} may be ${told.join("; ")}${rest}`);
  }
  const near = nearest(
    words,
    ARRANGEMENTS.map(({ name }) => name),
  );
  const remedy =
    near === undefined ? `; there are ${ARRANGEMENTS.length}, from 1+0 on` : `; did you mean ${near}?`;
  return new CommandError(`${words}: there is no such arrangement${remedy}`);
}

/** An entry of the catalogue of the design in a folder. */
export async function explainPart(
  kind: TaughtKind,
  name: string,
  folder: string,
  { today, on, format }: { readonly today: string; readonly on?: string; readonly format: string },
): Promise<void> {
  const models = [...loadProject(designFolder(folder)).project.designs()];
  const model = models.find((one) => one.declarations(`${kind} ${name}`).length > 0);
  if (model === undefined) {
    const other = NAMED_KINDS.find((one) =>
      models.some((each) => each.declarations(`${one} ${name}`).length > 0),
    );
    if (other !== undefined)
      throw new CommandError(
        `${name} is no ${kind} but a ${other}${other === "hop" || other === "site" || isTaught(other) ? `; hopwright explain --${other} ${name} tells of it` : ""}`,
      );
    const near = nearest(
      name,
      models.flatMap((one) => one.names(kind)),
    );
    throw new CommandError(
      `${name}: there is no such ${kind}${near === undefined ? "" : `; did you mean ${near}?`}`,
    );
  }
  model.setToday(today);
  if (on !== undefined) model.setView({ on });
  noteTime({ model });
  const lesson = lessonOfPart(kind, name, model, aroundParts(model));
  if (lesson === undefined)
    throw new CommandError(`${name}: this ${kind} cannot be read yet; hopwright check says what is wrong`);
  await printLesson(lesson, format);
}

async function printLesson(lesson: Lesson, format: string): Promise<void> {
  const json = formatNamed(FORMATS.explain, format).name === "json";
  await print(json ? lessonJson(lesson) : lessonText(lesson, paintStdout));
}
