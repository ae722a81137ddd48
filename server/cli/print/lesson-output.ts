/** Shape of `explain --arrangement`, `--card`, `--radio`, `--antenna`, `--coupler` with `--format json`; `hopwright schema lesson` prints its JSON Schema. */
import type { Lesson } from "../../../shared/report/teach/lesson.js";

export interface LessonOutput extends Lesson {
  readonly schema: "hopwright-lesson/1";
  readonly version: string;
}
