/**
 * Units that are plugged in elsewhere than before. Which port a unit is proposed rests on all that hangs at a site, so that
 * one hop more, a card less or another name may move the cables of hops that nobody touched.
 */
import type { Design } from "../design/design.js";
import type { IfPortUse } from "../equipment/if-ports.js";
import { sitePlans } from "../equipment/site-plan.js";
import { hopNow, type Renames, siteNow } from "./renames.js";

export interface PortMove {
  /** By their new names. */
  readonly site: string;
  readonly hop: string;
  /** Which unit of the hop: `main`, `only`. */
  readonly branch: string;
  /** Chassis, slot and port: `A/8:1`. */
  readonly was: string;
  readonly is: string;
  /** The design states the port that it has now; else it is proposed. */
  readonly stated?: true;
}

/** Of units that are there on both sides. */
export function portMoves(was: Design, is: Design, renames: Renames): readonly PortMove[] {
  const before = sitePlans(was);
  const oldName = new Map([...before.keys()].map((site) => [siteNow(site, renames), site]));
  const moves: PortMove[] = [];
  for (const [site, plan] of sitePlans(is)) {
    const then = before.get(oldName.get(site) ?? "");
    if (then === undefined || then === plan || plan.ifPorts.uses.length === 0) continue;
    const unitOf = ({ hop, branch }: Pick<IfPortUse, "hop" | "branch">) => `${hop} ${branch}`;
    const known = new Map(
      then.ifPorts.uses.map((use) => [unitOf({ ...use, hop: hopNow(use.hop, renames) }), portOf(use)]),
    );
    for (const use of plan.ifPorts.uses) {
      const { hop, branch, automatic } = use;
      const had = known.get(unitOf(use));
      if (had === undefined || had === portOf(use)) continue;
      moves.push({
        site,
        hop,
        branch,
        was: had,
        is: portOf(use),
        ...(!automatic && { stated: true as const }),
      });
    }
  }
  return moves;
}

function portOf({ card, port }: IfPortUse): string {
  return `${card.chassis.name}/${card.slot}:${port}`;
}
