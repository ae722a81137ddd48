import { realpathSync } from "node:fs";
import type { DesignModel } from "../../language/model/design-model.js";
import { slashed } from "./slashed.js";

/** Lies in the design's own folder with no link on the way, and holds no unfinished merge. */
export function isOwn(model: DesignModel, path: string): boolean {
  if (!path.startsWith(`${model.root}/`)) return false;
  if (/^(<{7}|>{7})/m.test(model.file(path)?.text ?? "")) return false;
  try {
    return slashed(realpathSync(path)) === slashed(realpathSync(model.root)) + path.slice(model.root.length);
  } catch {
    return false;
  }
}
