import { address } from "../design/address.js";
import { apart, dbm, decibels } from "../format/numbers.js";
import { exampleHop } from "./example-preamble.js";
import type { HopRule } from "./rule.js";

export const overload: HopRule = {
  scope: "hop",
  id: "overload",
  severity: "error",
  title: "The receiver must not be overloaded",
  checks:
    "Received level in clear air with the strongest mode, over the strongest way through the branches, against the radio's overload level.",
  why: "A short hop with large antennas makes errors on the finest day.",
  fix: "Lower the power, or choose smaller antennas.",
  source: "common practice",
  needs: ["levels"],
  good: exampleHop(),
  bad: `site CLOSE {\n  at 47.503 -30.5\n}\n\nhop KELD-CLOSE {\n  radio R18\n  polarization vertical\n  mode 55 MHz 128QAM\n  channel P18 / 55 MHz / 4\n  KELD {\n    antenna A18-06 at 20 m\n    transmits high\n  }\n  CLOSE {\n    antenna A18-06 at 20 m\n    transmits low\n  }\n}`,
  check({ hop, result, report }) {
    for (const { to, from, overload: found } of result.directions) {
      if (found === undefined || found.marginDb >= 0) continue;
      const [level, overloadAt] = apart(dbm, found.receivedLevelDbm, found.overloadDbm);
      report({
        at: address("hop", hop.name, to),
        message: `${to} receives ${level}, ${hop.radio!.name} is overloaded above ${overloadAt}`,
        help: `Lower the power at ${from} by ${decibels(Math.ceil(-found.marginDb * 10) / 10)} or more.`,
        related: [
          {
            at: address("radio", hop.radio!.name, "overload"),
            message: `overload level of ${hop.radio!.name}`,
          },
        ],
      });
    }
  },
};
