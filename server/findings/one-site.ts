/** One site of the designs in a folder, for what is told of it without evaluating hops. */
import type { DesignModel } from "../../language/model/design-model.js";
import { ALL_BUILT } from "../../shared/design/state.js";
import { nearest } from "../../shared/format/nearest.js";
import { CommandError } from "../command-error.js";
import { loadProject } from "../session/load.js";
import { designFolder } from "./judged-folder.js";
import { stagesOf } from "./stages.js";

/**
 * The design that has a site, looking at a day on which it stands: the one given, else the last that is judged.
 * @throws CommandError when there is no such site, several, or it does not stand then
 */
export function findSite(folder: string, name: string, today: string, on?: string): DesignModel {
  const models = [...loadProject(designFolder(folder)).project.designs()];
  const holding = models.filter((one) => one.declarations(`site ${name}`).length > 0);
  const [model] = holding;
  if (model === undefined) throw noSuchSite(name, models);
  if (holding.length > 1)
    throw new CommandError(
      `${name}: ${holding.length} designs in ${folder} have a site of this name; name the folder of one of them`,
    );
  model.setToday(today);
  const stands = (day: string) => {
    model.setView({ on: day });
    return model.standing(`site ${name}`).length > 0;
  };
  const day = on === undefined ? stagesOf(model, today, {}).findLast(stands) : stands(on) ? on : undefined;
  if (day === undefined && model.standing(`site ${name}`).length === 0)
    throw new CommandError(
      on === undefined
        ? `${name}: this site is gone by today; --on names a day on which it stood`
        : `${name}: this site does not stand on ${on}`,
    );
  model.setView({ on: day ?? ALL_BUILT });
  return model;
}

export function noSuchSite(name: string, models: readonly DesignModel[]): CommandError {
  if (models.some((model) => model.declarations(`hop ${name}`).length > 0))
    return new CommandError(
      `${name}: there is no such site; it is a hop, which hopwright explain --hop tells of`,
    );
  const near = nearest(
    name,
    models.flatMap((model) => model.names("site")),
  );
  return new CommandError(
    `${name}: there is no such site${near === undefined ? "" : `; did you mean ${near}?`}`,
  );
}
