import { address } from "../design/address.js";
import { type Change, changeWords } from "../design/change.js";
import type { DirectionResult } from "../evaluate/account/level-result.js";
import { apart, dbm, decibels } from "../format/numbers.js";
import { listed } from "../words/lists.js";
import { exampleHop } from "./example-preamble.js";
import { proposedChanges } from "./fixes/proposed.js";
import type { HopContext, HopRule, Report } from "./rule.js";

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
  fixes: proposedChanges,
  good: exampleHop(),
  bad: `site CLOSE {\n  at 47.503 -30.5\n}\n\nhop KELD-CLOSE {\n  radio R18\n  polarization vertical\n  mode 55 MHz 128QAM\n  channel P18 / 55 MHz / 4\n  KELD {\n    antenna DISH60-18 at 20 m\n    transmits high\n  }\n  CLOSE {\n    antenna DISH60-18 at 20 m\n    transmits low\n  }\n}`,
  check(context) {
    const { hop, result, report } = context;
    for (const { to, from, overload: found } of result.directions) {
      if (found === undefined || found.marginDb >= 0) continue;
      const [level, overloadAt] = apart(dbm, found.receivedLevelDbm, found.overloadDbm);
      report({
        at: address("hop", hop.name, to),
        message: `${to} receives ${level} with ${found.modulation}, ${hop.radio!.name} is overloaded above ${overloadAt}`,
        ...lowerPower(context, from, to, found),
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

/** So much less in the strongest mode; the power of an end holds in every mode, so that it may be no more than the weakest has. */
function lowerPower(
  { hop, tried }: HopContext,
  from: string,
  to: string,
  { marginDb, transmitPowerDbm }: NonNullable<DirectionResult["overload"]>,
): Pick<Report, "help" | "changes"> {
  const lessDb = Math.ceil(-marginDb * 10) / 10;
  const lower = `Lower the power at ${from} by ${decibels(lessDb)} or more.`;
  const least = Math.min(...hop.modes.map((mode) => mode.transmitPowerDbm ?? Number.POSITIVE_INFINITY));
  const powerDbm = Math.floor(Math.min(transmitPowerDbm - lessDb, least) * 10) / 10;
  const change: Change = { kind: "power", site: from, powerDbm };
  const attempt = tried?.attempt(overload.id, change, address("hop", hop.name, to));
  if (!attempt?.mends) return { help: lower };
  return attempt.brings.length === 0
    ? { help: `${lower} Tried and enough: ${changeWords(change)}.`, changes: [change] }
    : { help: `${lower} But ${changeWords(change)} misses then: ${listed(attempt.brings)}.` };
}
