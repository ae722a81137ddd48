import { address } from "../../design/address.js";
import type { Cable } from "../../design/equipment.js";
import { cableLength } from "../../equipment/cable-run.js";
import { LOWEST_SERVICE_V } from "../../equipment/dc-feed.js";
import { ifCableLoss } from "../../equipment/if-cable.js";
import { unitFeed } from "../../equipment/power.js";
import type { SiteEnd, SitePlan } from "../../equipment/site-plan.js";
import { metres, trimmed } from "../../format/numbers.js";
import { exampleHop } from "../example-preamble.js";
import type { SiteRule } from "../rule.js";

/** Copper Ethernet, indoor and outdoor part together: IEEE 802.3. */
const COPPER_ETHERNET_M = 100;

const CABLE = `cable COAX-7 {
  kind coaxial
  loss 15 dB/100m at 350 MHz
  loop-resistance 9 ohm/km
}

radio R18C like R18 {
  draws 45 W
  if-limit 25 dB at 350 MHz
  least-supply 36 V
}

`;
const RADIO = "polarization vertical\n  radio R18C\n  mode 55 MHz 128QAM\n  arrangement 1+0";

export const cableTooLong: SiteRule = {
  scope: "network",
  each: "site",
  id: "cable-too-long",
  severity: "error",
  arrangements: ({ outdoorUnits }) => outdoorUnits > 0,
  title: "The cable to a unit must not be longer than unit and cable bear",
  checks:
    "Length of each cable, stated or estimated, against its maker's limit, against the loss that the unit equalizes at its highest IF, and against the voltage that is left at the unit at 40.5 V and constant power.",
  why: "Beyond the limit the unit does not start, or starts and fails in summer.",
  fix: "A thicker cable, a shorter way, or an all-outdoor radio with fibre.",
  source: "constant-power line; common practice; ETSI EN 300 132-2 for 40.5 V, from memory",
  good:
    CABLE +
    exampleHop({
      hop: RADIO,
      keld: "antenna DISH60-18 at 40 m\n    transmits high\n    cable COAX-7 length 60 m",
    }),
  bad:
    CABLE +
    exampleHop({
      hop: RADIO,
      keld: "antenna DISH60-18 at 40 m\n    transmits high\n    cable COAX-7 length 260 m",
    }),
  check({ plan, report }) {
    for (const end of plan.ends) {
      const cable = end.end.installation?.cable;
      const length = cableLength(end.end, plan.equipment);
      if (cable === undefined || length === undefined) continue;
      const why = tooLong(cable, length.lengthM, end, plan);
      if (why === undefined) continue;
      const estimated = length.estimated ? ", estimated," : "";
      report(
        {
          at: address("hop", end.hop.name, plan.site.name, "cable"),
          message: `${metres(length.lengthM)}${estimated} of ${cable.name} at ${plan.site.name}: ${why}`,
        },
        end.hop.name,
      );
    }
  },
};

function tooLong(cable: Cable, lengthM: number, end: SiteEnd, plan: SitePlan): string | undefined {
  const longestM = cable.longestM ?? (cable.kind === "ethernet" ? COPPER_ETHERNET_M : undefined);
  if (longestM !== undefined && lengthM > longestM) return `${metres(longestM)} is its limit`;
  const loss = ifCableLoss(end, plan);
  if (loss !== undefined && loss.lossDb > loss.limitDb) {
    return `loses ${trimmed(loss.lossDb, 2)} dB at ${trimmed(loss.frequencyHz / 1e6, 0)} MHz, the unit equalizes ${trimmed(loss.limitDb, 2)} dB`;
  }
  const unit = end.hop.radio?.unit;
  const feed = unitFeed(end, plan);
  if (feed === undefined) return undefined;
  if (!feed.ok) return `cannot deliver the ${trimmed(unit!.drawsW!, 1)} W of the unit at all`;
  if (unit?.leastSupplyV !== undefined && feed.loadV < unit.leastSupplyV) {
    return `leaves ${feed.loadV.toFixed(1)} V of ${LOWEST_SERVICE_V} V at the unit, which starts at ${trimmed(unit.leastSupplyV, 1)} V`;
  }
  return undefined;
}
