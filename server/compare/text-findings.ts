/** Problems of text as findings on the fact that they stand at, so that they are compared like all others. */
import { addressAt } from "../../language/model/address-at.js";
import type { DesignModel } from "../../language/model/design-model.js";
import type { Finding } from "../../shared/design/finding.js";

export function textFindings(model: DesignModel): Finding[] {
  return [...model.allFiles()].flatMap((file) =>
    model.problemsOf(file.path).map(({ rule, severity, message, help, start }) => ({
      rule,
      severity,
      message,
      help,
      at: addressAt(file, start) ?? `file ${below(model.root, file.path)}`,
    })),
  );
}

/** Files that hold text which cannot be read as the language: the side is judged without it. */
function brokenFiles(model: DesignModel): string[] {
  return [...model.allFiles()]
    .filter(({ tree }) => tree.problems.length > 0)
    .map(({ path }) => below(model.root, path));
}

/** @param side as the reader knows it, "the work tree" for one */
export function brokenNote(model: DesignModel, side: string): string[] {
  const broken = brokenFiles(model);
  if (broken.length === 0) return [];
  const files = broken.length > 3 ? `${broken.length} files` : broken.join(", ");
  return [`${side} has text that cannot be read in ${files}; it is judged as far as it goes.`];
}

function below(root: string, path: string): string {
  return path.startsWith(`${root}/`) ? path.slice(root.length + 1) : path;
}
