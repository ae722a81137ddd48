import type { LevelRow } from "../../shared/evaluate/account/level-result.js";
import { elementMessage } from "../../shared/words/elements.js";
import { shown } from "../../shared/words/message.js";

/** What a row of the level diagram is called. */
export function elementName({ passes }: LevelRow): string {
  return shown(elementMessage(passes).name);
}
