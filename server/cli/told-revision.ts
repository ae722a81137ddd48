/** The revision of a design for its papers; why it is not known stands on standard error. */
import type { DesignRevision } from "../../shared/design/revision.js";
import type { JudgedDesign, JudgedFolder } from "../findings/judged-folder.js";
import { revisionOfDesign } from "../report/revision.js";
import { safe } from "./print/safe.js";
import { note } from "./streams.js";

export async function toldRevision(design: JudgedDesign, folder: JudgedFolder): Promise<DesignRevision> {
  const revision = await revisionOfDesign(design, folder);
  if (revision.state === "not read") note(`revision not known: ${safe(revision.why)}`);
  return revision;
}
