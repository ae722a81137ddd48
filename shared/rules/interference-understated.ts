import { address } from "../design/address.js";
import { decibels } from "../format/numbers.js";
import { ROUNDING_DB } from "../interference/limits.js";
import { fromHub } from "./example-interference.js";
import type { HopInNetworkRule } from "./rule.js";

export const interferenceUnderstated: HopInNetworkRule = {
  scope: "network",
  each: "hop in network",
  id: "interference-understated",
  severity: "warning",
  title: "A stated degradation covers what is computed",
  checks:
    "The `degradation` of a hop against what its network and the lists of others bring to its receivers.",
  why: "The stated figure counts as the least: where more is computed, that counts, and what was agreed on with the stated one no longer holds.",
  fix: "State what is computed, or mend what causes it.",
  source: "what this program computes",
  good: fromHub({ channel: 6, degradation: "1 dB" }),
  bad: fromHub({ channel: 4, degradation: "1 dB" }),
  check({ hop, interference = [], report }) {
    const { degradationDb } = hop;
    if (degradationDb === undefined) return;
    const most = Math.max(0, ...interference.map((at) => at.degradationDb));
    if (!(most > degradationDb + ROUNDING_DB)) return;
    const at = interference.find((one) => one.degradationDb === most)!;
    report({
      at: address("hop", hop.name, "degradation"),
      about: address("hop", hop.name),
      message: `${decibels(degradationDb)} are stated; at ${at.receiver.place.site} ${decibels(most)} are computed, and count`,
    });
  },
};
