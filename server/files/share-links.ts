/** Links to shares of the network: on Windows to look where one leads is to log in there. */
import { readlinkSync } from "node:fs";
import { win32 } from "node:path";
import { shareOf } from "../../language/model/path.js";

/** Links to links end somewhere, or are no way. */
const MOST_STEPS = 40;

/** Where a link leads, if that is a share of the network that it does not lie on itself. Nothing but links is read. */
export function shareLinkedTo(
  link: string,
  windows = process.platform === "win32",
  read: (path: string) => string = readlinkSync,
): string | undefined {
  if (!windows) return undefined;
  let at = link;
  for (let step = 0; step < MOST_STEPS; step++) {
    let target: string;
    try {
      target = read(at);
    } catch {
      return undefined;
    }
    const share = shareOf(target);
    if (share !== undefined) return share === shareOf(link) ? undefined : target;
    at = win32.resolve(win32.dirname(at), target);
  }
  return undefined;
}
