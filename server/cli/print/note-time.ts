import type { JudgedDesign } from "../../findings/judged-folder.js";
import { shownTime } from "../../findings/summary.js";
import { note } from "../streams.js";

/** Says beside the output which time its figures are of, where the design has more than one. */
export function noteTime(design: Pick<JudgedDesign, "model">): void {
  const shown = shownTime(design);
  if (shown !== undefined) note(`figures are those ${shown}`);
}
