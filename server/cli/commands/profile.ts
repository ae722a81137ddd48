import { findHop } from "../../findings/one-hop.js";
import { FORMATS, formatNamed } from "../formats.js";
import { noteTime } from "../print/note-time.js";
import { paintStdout, print } from "../streams.js";

export interface ProfileOptions {
  readonly format: string;
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
  await print(await formatNamed(FORMATS.profile, format).print({ hop, result, profile, paint: paintStdout }));
}
