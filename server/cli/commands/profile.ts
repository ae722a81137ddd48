import { standaloneSvg } from "../../../shared/report/document/style.js";
import { drawProfile } from "../../../shared/report/draw/profile.js";
import { drawnKFactor, drawnLine, profileLine } from "../../../shared/report/draw/profile-points.js";
import { lackClause } from "../../../shared/words/lacks.js";
import { shown } from "../../../shared/words/message.js";
import { CommandError } from "../../command-error.js";
import { findHop } from "../../findings/one-hop.js";
import { noteTime } from "../print/note-time.js";
import { profileCsv, profileText } from "../print/profile.js";
import { paintStdout, print } from "../streams.js";

export interface ProfileOptions {
  readonly format: "text" | "csv" | "svg";
  readonly today: string;
  /** The day that is looked at; left out: the last on which the hop stands. */
  readonly on?: string;
}

export async function profile(
  name: string,
  dir: string,
  { format, today, on }: ProfileOptions,
): Promise<void> {
  const { hop, result, profile, design } = await findHop(dir, name, today, on);
  noteTime(design);
  const lineOf = format === "csv" ? profileLine : drawnLine;
  const line = profile && lineOf(hop, result, profile, drawnKFactor(hop));
  if (!profile || !line) {
    const lack = result.missing.find(({ of }) => of.includes("profile"));
    const why = lack ? shown(lackClause(lack)) : "the positions of both sites are needed";
    throw new CommandError(`${name}: there is no profile: ${why}`);
  }
  if (format === "csv") await print(profileCsv(line));
  else if (format === "text") await print(profileText(result, line, paintStdout));
  else {
    const drawn = drawProfile(hop, result, profile);
    if (!drawn)
      throw new CommandError(`${name}: no raster has a height along this path; add terrain that covers it`);
    await print([`${standaloneSvg(drawn.svg)}\n`]);
  }
}
