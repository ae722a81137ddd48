/** From a name to its declaration and its uses. */
import { plansNamed } from "../../shared/spectrum/channel-plan.js";
import type { DesignModel } from "../model/design-model.js";
import { modeLineAt } from "./modulation.js";
import { declarationsOf, declaredIn, type NameAt, nameAt, occurrences } from "./occurrences.js";
import type { FileRange } from "./text-range.js";
import { factAt } from "./walk.js";

/** Declarations of the name at an offset; of a modulation the line of the radio that states it. */
export function definitionAt(model: DesignModel, path: string, offset: number): readonly FileRange[] {
  const name = touched(model, path, offset);
  if (name) return declarationsOf(name, model);
  const file = model.file(path);
  const at = file && factAt(file, offset);
  const mode = at && modeLineAt(at, model);
  return mode ? [mode] : [];
}

/** The built-in channel plan whose name is at an offset, and which the design does not declare itself. */
export function builtInPlanAt(model: DesignModel, path: string, offset: number): string | undefined {
  const name = touched(model, path, offset);
  if (name?.kind !== "plan" || declarationsOf(name, model).length > 0) return undefined;
  return plansNamed(name.name)[0]?.id;
}

/** Every use of the name at an offset, over all files of the design. */
export function referencesAt(
  model: DesignModel,
  path: string,
  offset: number,
  options: { readonly includeDeclaration: boolean },
): readonly FileRange[] {
  const name = touched(model, path, offset);
  if (!name) return [];
  return occurrences(name, model)
    .filter((one) => options.includeDeclaration || !one.declaration)
    .map(({ file, start, end }) => ({ file, start, end }));
}

/** The name's places in the file itself; the declaration is what writes it. */
export function highlightsAt(
  model: DesignModel,
  path: string,
  offset: number,
): readonly { readonly start: number; readonly end: number; readonly kind: "read" | "write" }[] {
  const name = touched(model, path, offset);
  if (!name) return [];
  return occurrences(name, model)
    .filter((one) => one.file === path)
    .map(({ start, end, declaration }) => ({ start, end, kind: declaration ? "write" : "read" }));
}

function touched(model: DesignModel, path: string, offset: number): NameAt | undefined {
  const file = model.file(path);
  return file && nameAt(file, offset, declaredIn(model));
}
