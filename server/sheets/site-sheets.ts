/** The sheets of sites of one judged design, as pages. */
import { sitePlans } from "../../shared/equipment/site-plan.js";
import type { HopResult } from "../../shared/evaluate/account/result.js";
import type { Pair } from "../../shared/network/in-network.js";
import { installationSheet } from "../../shared/report/sheets/installation.js";
import { magneticDayOf } from "../../shared/report/sheets/running.js";
import { fileNames } from "../report/names.js";
import { VERSION } from "../version.js";
import { errorsAtSite } from "./sheet-errors.js";
import type { SheetFamily } from "./sheet-family.js";

/** A sheet for each site that has a hop or equipment, in the order of names. */
export const SITE_SHEETS: SheetFamily = {
  about: "site",
  kinds: ["installation"],
  *pages(judgedDesign, { site: only, words, folder, revision }) {
    const { session, model, title } = judgedDesign;
    const design = model.design();
    const plans = sitePlans(design);
    const names = fileNames([...model.names("site"), ...plans.keys()]);
    const magneticDay = magneticDayOf(design.magneticDay, revision);
    const colophon = words.common.colophon(VERSION, words.day(session.acceptanceDay));
    for (const plan of plans.values()) {
      const { name } = plan.site;
      if (only !== undefined && only !== name) continue;
      const results = new Map<string, HopResult>();
      const pairs = new Map<string, Pair>();
      for (const { hop } of plan.ends) {
        const judged = session.result(hop.name);
        if (judged) results.set(hop.name, judged.result);
        const pair = session.inNetwork(hop.name)?.pair;
        if (pair) pairs.set(hop.name, pair);
      }
      yield installationSheet({
        plan,
        design,
        results,
        pairs,
        errors: errorsAtSite(
          judgedDesign,
          name,
          plan.ends.map(({ hop }) => hop.name),
        ),
        magneticDay,
        ...(title !== undefined && { title }),
        name: `${folder}installation/${names.get(name)}`,
        words,
        colophon,
      });
    }
  },
};
