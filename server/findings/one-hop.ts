import { nearest } from "../../shared/format/nearest.js";
import type { TerrainProfile } from "../../shared/terrain/profile.js";
import { CommandError } from "../command-error.js";
import type { JudgedHop } from "../session/design-session.js";
import { ground } from "../session/ground.js";
import { type JudgedDesign, judgeFolder } from "./judged-folder.js";

export interface FoundHop extends JudgedHop {
  readonly design: JudgedDesign;
  readonly profile?: TerrainProfile;
}

/**
 * One hop of the designs in a folder; only this one is evaluated.
 * @throws CommandError when there is no such hop, several, or it says too little yet
 */
export async function findHop(folder: string, name: string, today: string): Promise<FoundHop> {
  const { designs } = await judgeFolder(folder, { today, only: name });
  const holding = designs.filter(({ model }) => model.declarations(`hop ${name}`).length > 0);
  const [design] = holding;
  if (!design) throw noSuchHop(name, designs);
  if (holding.length > 1) {
    throw new CommandError(
      `${name}: ${holding.length} designs in ${folder} have a hop of this name; name the folder of one of them`,
    );
  }
  const judged = design.session.result(name);
  if (!judged) throw notEvaluated(name);
  const { profile } = await ground(judged.hop, design.session.terrain());
  return { ...judged, design, profile };
}

export function noSuchHop(name: string, designs: readonly JudgedDesign[]): CommandError {
  const near = nearest(
    name,
    designs.flatMap(({ model }) => model.names("hop")),
  );
  return new CommandError(
    `${name}: there is no such hop${near === undefined ? "" : `; did you mean ${near}?`}`,
  );
}

export function notEvaluated(name: string): CommandError {
  return new CommandError(`${name}: this hop cannot be evaluated yet; hopwright check says what is wrong`);
}
