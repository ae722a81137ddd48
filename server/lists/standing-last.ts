/**
 * Sites and hops of a design as each stands last, those included that are taken down before all that is planned stands:
 * lists tell them so, and what comes in is held against them so.
 */
import { DesignModel } from "../../language/model/design-model.js";
import type { Design } from "../../shared/design/design.js";
import { stagesFrom, type View } from "../../shared/design/state.js";

export interface StandingLast extends Pick<Design, "sites" | "hops"> {
  /** View of the last day of what does not stand in the model's own view: by `site KELD`, `hop KELD-TARN`. */
  readonly lastViews: ReadonlyMap<string, View>;
}

/**
 * @param first ISO date of the first day that counts; what stands on none from then on is left out
 * @returns in the order of the text
 */
export function standingLast(model: DesignModel, first: string): StandingLast {
  const own = model.view;
  const { sites, hops } = model.design();
  const found = { site: new Map(sites), hop: new Map(hops) };
  const lastViews = new Map<string, View>();
  const lacking = (kind: "site" | "hop") => model.names(kind).filter((name) => !found[kind].has(name));
  if (lacking("site").length + lacking("hop").length > 0) {
    for (const on of [...stagesFrom(first, model.spans())].reverse()) {
      const view = { on };
      model.setView(view);
      for (const name of lacking("site")) {
        const site = model.lookup.site(name);
        if (!site) continue;
        found.site.set(name, site);
        lastViews.set(`site ${name}`, view);
      }
      for (const name of lacking("hop")) {
        const hop = model.hop(name)?.hop;
        if (!hop) continue;
        found.hop.set(name, hop);
        lastViews.set(`hop ${name}`, view);
      }
    }
    model.setView(own);
  }
  return {
    sites: inOrder(found.site, model.names("site")),
    hops: inOrder(found.hop, model.names("hop")),
    lastViews,
  };
}

/** The same text as if nothing in it had a state: what never stands at all is found in it too. */
export function withoutStates(model: DesignModel): DesignModel {
  const always = new DesignModel(model.root);
  for (const file of model.allFiles())
    always.setFile({
      ...file,
      declarations: file.declarations.map((entry) => ({ ...entry, states: false })),
    });
  return always;
}

function inOrder<T>(found: ReadonlyMap<string, T>, names: readonly string[]): Map<string, T> {
  return new Map(
    names.flatMap((name) => {
      const one = found.get(name);
      return one === undefined ? [] : [[name, one] as const];
    }),
  );
}
