/** What the planned part of a design asks for: its parts and licences beyond those of what is built. */
import { type LicenceChange, licenceChanges } from "../../shared/compare/licences.js";
import { type OrderChange, orderChanges } from "../../shared/compare/orders.js";
import type { JudgedDesign } from "../findings/judged-folder.js";

export interface Planned {
  readonly orders: readonly OrderChange[];
  readonly licences: readonly LicenceChange[];
}

/**
 * The design as it is looked at, against what of it is built by today. Afterwards the session is as before.
 * @returns undefined where nothing has a state: all of it is there to be ordered then
 */
export async function plannedOf({ model, session }: JudgedDesign): Promise<Planned | undefined> {
  if (model.spans()[Symbol.iterator]().next().done) return undefined;
  const { view } = model;
  const is = { design: model.design(), hops: new Map(session.results()) };
  model.setView({ on: session.today, builtOnly: true });
  await session.update();
  const was = { design: model.design(), hops: new Map(session.results()) };
  model.setView(view);
  await session.update();
  const sites = new Set([...is.design.sites.keys(), ...was.design.sites.keys()]);
  const hops = new Set([...is.hops.keys(), ...was.hops.keys()]);
  return {
    orders: orderChanges(was.design, is.design, { hops: new Map(), entries: new Map() }, sites),
    licences: [...hops].flatMap((name) =>
      licenceChanges(was.hops.get(name), is.hops.get(name), (site) => site),
    ),
  };
}
