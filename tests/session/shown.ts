/** The server's designs without a connection, and what an editor would be shown of each file. */
import { Designs } from "../../server/lsp/designs.js";
import { Evaluation } from "../../server/lsp/evaluation.js";

export function shownFrom(...folders: readonly string[]) {
  const shown = new Map<string, string[]>();
  const designs = new Designs(folders, { today: "2027-01-01" });
  const evaluation = new Evaluation(designs, {
    publish: (path, diagnostics) =>
      void shown.set(
        path,
        diagnostics.map(({ message }) => String(message)),
      ),
    changed: () => undefined,
    status: () => undefined,
    failed: (error) => {
      throw error;
    },
  });
  designs.load();
  const settled = async () => {
    evaluation.touch();
    await evaluation.settled();
  };
  return { designs, shown, settled };
}
