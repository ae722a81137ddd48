/** Which template of a design its sheets are made by. */
import type { SheetTemplate } from "../../shared/design/sheets.js";
import { CommandError } from "../command-error.js";
import type { JudgedDesign } from "../findings/judged-folder.js";

/** Of one name the first counts. @throws CommandError where one is named that no design has */
export function mustHaveTemplate(designs: readonly JudgedDesign[], name: string | undefined): void {
  if (name === undefined) return;
  const all = designs.flatMap(({ model }) => (model.lookup.sheets() ?? []).map((one) => one.name));
  if (all.includes(name)) return;
  const choices = [...new Set(all)].join(", ");
  throw new CommandError(
    choices === ""
      ? `--template ${name}: the design states no sheets; write one, such as sheets ${name} { make line-up }`
      : `--template ${name}: choose from ${choices}`,
  );
}

/** The one that is named, else the only one. */
export function templateOf(
  { model }: Pick<JudgedDesign, "model">,
  name: string | undefined,
): SheetTemplate | undefined {
  const all = model.lookup.sheets() ?? [];
  if (name !== undefined) return all.find((one) => one.name === name);
  return new Set(all.map((one) => one.name)).size === 1 ? all[0] : undefined;
}
