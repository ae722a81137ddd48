/** What the planned part of a design asks for: day by day, its parts and licences beyond those of the day before. */
import { type LicenceChange, licenceChanges } from "../../shared/compare/licences.js";
import { type OrderChange, orderChanges } from "../../shared/compare/orders.js";
import { ALL_BUILT } from "../../shared/design/state.js";
import { licencesFor } from "../../shared/licence/held.js";
import type { JudgedDesign } from "../findings/judged-folder.js";
import { stagesOf } from "../findings/stages.js";

export interface PlannedStep {
  /** ISO date by which it has to be there; undefined: it has none. */
  readonly by?: string;
  readonly orders: readonly OrderChange[];
  readonly licences: readonly LicenceChange[];
}

/**
 * From what is built by today to the design as it is looked at. Afterwards the session is as before.
 * @returns undefined where nothing has a state: all of it is there to be ordered then
 */
export async function plannedOf({
  model,
  session,
}: JudgedDesign): Promise<readonly PlannedStep[] | undefined> {
  if (model.spans()[Symbol.iterator]().next().done) return undefined;
  const { view } = model;
  const lookAt = async (other: typeof view) => {
    model.setView(other);
    await session.update();
    return { design: model.design(), hops: new Map(session.results()) };
  };
  const steps: PlannedStep[] = [];
  let was = await lookAt({ on: session.today, builtOnly: true });
  for (const on of stagesOf(model, session.today, {}).filter((day) => day <= view.on)) {
    const is = await lookAt({ on });
    const sites = new Set([...is.design.sites.keys(), ...was.design.sites.keys()]);
    const hops = new Set([...is.hops.keys(), ...was.hops.keys()]);
    const before = was;
    const orders = orderChanges(before.design, is.design, { hops: new Map(), entries: new Map() }, sites);
    const licences = [...hops].flatMap((name) =>
      licenceChanges(before.hops.get(name), is.hops.get(name), (site) => site, {
        was: licencesFor(before.design, name),
        is: licencesFor(is.design, name),
        day: on === ALL_BUILT ? session.today : on,
      }),
    );
    if (orders.length > 0 || licences.length > 0)
      steps.push({ by: on === ALL_BUILT ? undefined : on, orders, licences });
    was = is;
  }
  await lookAt(view);
  return steps;
}
