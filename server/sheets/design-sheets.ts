/** The sheets of a whole design, a page each: for the licensing desk, whoever plans frequencies, and the buyer. */
import { heldHop, licencesFor } from "../../shared/licence/held.js";
import { transmissionsOf } from "../../shared/licence/transmissions.js";
import type { DeskInput } from "../../shared/report/sheets/desk/desk-sheet.js";
import { frequenciesSheet } from "../../shared/report/sheets/desk/frequencies.js";
import { licencesSheet } from "../../shared/report/sheets/desk/licences.js";
import { partsSheet } from "../../shared/report/sheets/desk/parts.js";
import type { JudgedDesign } from "../findings/judged-folder.js";
import { VERSION } from "../version.js";
import { errorCount } from "./sheet-errors.js";
import type { SheetFamily } from "./sheet-family.js";

const MADE = {
  licences: ({ model, session }, base) => {
    const design = model.design();
    const day = session.acceptanceDay;
    return licencesSheet({
      ...base,
      day,
      licences: design.licences,
      hops: hopsOf({ model, session }).map(({ hop, result }) => ({
        held: heldHop(hop, result, licencesFor(design, hop.name), day),
        result,
      })),
    });
  },
  frequencies: (design, base) =>
    frequenciesSheet({
      ...base,
      plans: design.model.lookup.plans(),
      hops: hopsOf(design).map(({ hop, result }) => ({ hop, sent: transmissionsOf(hop, result) })),
    }),
  parts: ({ model }, base) => partsSheet({ ...base, design: model.design() }),
} satisfies Record<string, (design: JudgedDesign, base: DeskInput) => ReturnType<typeof partsSheet>>;

/** In the order of the text; one that is not evaluated tells what it alone knows. */
function hopsOf({ model, session }: Pick<JudgedDesign, "model" | "session">) {
  return [...model.design().hops.values()].map((hop) => {
    const judged = session.result(hop.name);
    return { hop: judged?.hop ?? hop, result: judged?.result };
  });
}

/** Nothing where the sheets of one hop are asked for. */
export const DESIGN_SHEETS: SheetFamily = {
  kinds: Object.keys(MADE),
  *pages(design, { kinds, hop, words, folder }) {
    if (hop !== undefined) return;
    const { title, session } = design;
    const colophon = words.common.colophon(VERSION, words.day(session.acceptanceDay));
    for (const kind of kinds)
      yield MADE[kind as keyof typeof MADE](design, {
        title,
        errors: errorCount(design),
        name: `${folder}${kind}`,
        words,
        colophon,
      });
  },
};
