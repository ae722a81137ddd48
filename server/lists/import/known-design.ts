/** The design that lists come into: all that its text declares, whenever it stands. */
import type { DesignModel } from "../../../language/model/design-model.js";
import { propertiesOf } from "../../../language/schema/index.js";
import { WHOLE } from "../../../shared/design/state.js";
import type { Known } from "../../../shared/lists/known.js";
import { standingLast, withoutStates } from "../standing-last.js";

export interface KnownDesign {
  readonly known: Known;
  /** The design as it has to be looked at to find what an address such as `hop KELD-TARN / TARN` speaks of. */
  lookingAt(address: string): DesignModel;
}

/** Before every date of a design. */
const FIRST_DAY = "0000-01-01";

export function knownDesign(model: DesignModel): KnownDesign {
  const { sites, hops, lastViews } = standingLast(model, FIRST_DAY);
  const whole = { sites: new Map(sites), hops: new Map(hops) };
  const never = { site: lacking(model, "site", sites), hop: lacking(model, "hop", hops) };
  let always: DesignModel | undefined;
  if (never.site.length + never.hop.length > 0) {
    always = withoutStates(model);
    for (const name of never.site) {
      const site = always.lookup.site(name);
      if (site) whole.sites.set(name, site);
    }
    for (const name of never.hop) {
      const hop = always.hop(name)?.hop;
      if (hop) whole.hops.set(name, hop);
    }
  }
  const neverAt = new Set([
    ...never.site.map((name) => `site ${name}`),
    ...never.hop.map((name) => `hop ${name}`),
  ]);
  return {
    known: {
      design: whole,
      gone: new Set([...lastViews.keys(), ...neverAt]),
      hopNames: model.names("hop"),
      objectives: model.names("objective"),
      stocked: { names: (kind) => model.names(kind), antenna: (name) => model.lookup.antenna(name) },
      taken: NOTHING_KNOWN.taken,
    },
    lookingAt: (address) => {
      const declared = address.split(" / ")[0]!;
      if (neverAt.has(declared)) return always!;
      const view = lastViews.get(declared) ?? WHOLE;
      if (model.view !== view) model.setView(view);
      return model;
    },
  };
}

function lacking(model: DesignModel, kind: "site" | "hop", found: ReadonlyMap<string, unknown>): string[] {
  return model.names(kind).filter((name) => !found.has(name));
}

/** Before there is a design. */
export const NOTHING_KNOWN: Known = {
  design: { sites: new Map(), hops: new Map() },
  gone: new Set(),
  hopNames: [],
  objectives: ["trunk", "access"],
  stocked: { names: () => [], antenna: () => undefined },
  taken: takenWords(),
};

/** An end of a hop is named by its site, among the hop's own facts. */
function takenWords(): ReadonlySet<string> {
  return new Set([...propertiesOf("hop").map(({ name }) => name), "template"]);
}
