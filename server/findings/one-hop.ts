import type { DesignModel } from "../../language/model/design-model.js";
import { nearest } from "../../shared/format/nearest.js";
import type { TerrainProfile } from "../../shared/terrain/profile.js";
import { CommandError } from "../command-error.js";
import { ground } from "../session/ground.js";
import type { SessionHop } from "../session/hop-judge.js";
import { type JudgedDesign, judgeFolder } from "./judged-folder.js";

export interface FoundHop extends SessionHop {
  readonly design: JudgedDesign;
  readonly profile?: TerrainProfile;
}

/**
 * One hop of the designs in a folder; only this one is evaluated.
 * @throws CommandError when there is no such hop, several, or it says too little yet
 */
export async function findHop(folder: string, name: string, today: string, on?: string): Promise<FoundHop> {
  const { designs } = await judgeFolder(folder, { today, only: name, times: { on } });
  const holding = designs.filter(({ model }) => model.declarations(`hop ${name}`).length > 0);
  const [design] = holding;
  if (!design) throw noSuchHop(name, designs);
  if (holding.length > 1) {
    throw new CommandError(
      `${name}: ${holding.length} designs in ${folder} have a hop of this name; name the folder of one of them`,
    );
  }
  const judged = design.session.result(name);
  if (!design.model.standsHop(name)) throw notStanding(name, on);
  if (!judged) throw notEvaluated(name);
  const { profile } = await ground(judged.hop, design.session.terrain());
  return { ...judged, design, profile };
}

export function noSuchHop(name: string, designs: readonly JudgedDesign[]): CommandError {
  const remedy = hopRemedy(
    name,
    designs.map(({ model }) => model),
  );
  return new CommandError(`${name}: there is no such hop${remedy}`);
}

/** More names than this are not listed. */
const FEW_HOPS = 12;

/** What may have been meant: the same two sites the other way round, a name alike, or one of a few. */
export function hopRemedy(name: string, models: readonly DesignModel[]): string {
  const names = models.flatMap((model) => model.names("hop"));
  const meant = turnedRound(name, names) ?? nearest(name, names);
  if (models.some((model) => model.declarations(`site ${name}`).length > 0))
    return "; it is a site, which hopwright explain --site tells of";
  if (meant !== undefined) return `; did you mean ${meant}?`;
  if (names.length === 0) return "; there is no hop at all here";
  return names.length > FEW_HOPS
    ? `, and none alike among ${names.length}`
    : `; there are ${names.join(", ")}`;
}

/** `TARN-KELD` for KELD-TARN, wherever the names themselves hold dashes. */
function turnedRound(name: string, names: readonly string[]): string | undefined {
  const parts = name.toLowerCase().split("-");
  for (let cut = 1; cut < parts.length; cut++) {
    const turned = [...parts.slice(cut), ...parts.slice(0, cut)].join("-");
    const found = names.find((one) => one.toLowerCase() === turned);
    if (found !== undefined) return found;
  }
  return undefined;
}

export function notStanding(name: string, on: string | undefined): CommandError {
  return new CommandError(
    on === undefined
      ? `${name}: this hop is gone by today; --on names a day on which it stood`
      : `${name}: this hop does not stand on ${on}`,
  );
}

export function notEvaluated(name: string): CommandError {
  return new CommandError(`${name}: this hop cannot be evaluated yet; hopwright check says what is wrong`);
}
