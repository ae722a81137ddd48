import { address } from "../design/address.js";
import type { Fix } from "../design/fact-change.js";
import { apart, dbm } from "../format/numbers.js";
import { isAboveMode, weakestMode } from "../radio/mode-power.js";
import { exampleHop } from "./example-preamble.js";
import { decision, endHere, type Mending } from "./fixes/mending.js";
import type { HopRule } from "./rule.js";

export const powerAboveMode: HopRule = {
  scope: "hop",
  id: "power-above-mode",
  severity: "error",
  title: "An end cannot transmit more than its mode allows",
  checks: "Transmit power stated at an end against the catalogue's power of each mode in use.",
  why: "High modes need a linear, weaker transmitter: the power of a low mode with the threshold of a high one is a margin that does not exist.",
  fix: "Lower the power, or leave it to the mode.",
  source: "common practice",
  needs: [],
  fixes: removePower,
  good: exampleHop({ keld: "antenna DISH60-18 at 40 m\n    transmits high\n    power 18 dBm" }),
  bad: exampleHop({ keld: "antenna DISH60-18 at 40 m\n    transmits high\n    power 24 dBm" }),
  check({ hop, report }) {
    for (const { site, transmitPowerDbm } of hop.ends) {
      const weakest = weakestMode(hop.modes);
      if (!isAboveMode(transmitPowerDbm, weakest)) continue;
      const [power, allowed] = apart(dbm, transmitPowerDbm!, weakest!.transmitPowerDbm!);
      report({
        at: address("hop", hop.name, site.name, "power"),
        message: `${site.name} transmits ${power}, ${weakest!.modulation} allows ${allowed}`,
      });
    }
  },
};

/** Leaves the power to the mode. */
function removePower(mending: Mending): readonly Fix[] {
  const here = endHere(mending);
  if (!here) return [];
  const title = `Leave the power at ${here.site} to the mode (removes the stated power)`;
  return [decision(title, { do: "remove", at: `${here.at} / power` })];
}
