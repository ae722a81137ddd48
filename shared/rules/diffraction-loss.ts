import { address } from "../design/address.js";
import { decibels } from "../format/numbers.js";
import { exampleHop } from "./example-preamble.js";
import type { HopRule } from "./rule.js";

/** Less is within what any level is uncertain by. */
const WORTH_TELLING_DB = 0.1;

export const diffractionLoss: HopRule = {
  scope: "hop",
  id: "diffraction-loss",
  severity: "warning",
  title: "The level counts on a diffracted path",
  checks:
    "Whether less than 0.6 of the first Fresnel zone is free at median k, so that a diffraction loss stands in the level.",
  why: "The loss is a median; with smaller k it grows, and fading over an obstructed path is deeper than computed.",
  fix: "Raise an antenna until the path is clear.",
  source: "Rec. ITU-R P.526-15 section 4.5.2",
  needs: ["levels"],
  quietAfter: ["path-length", "clearance"],
  good: exampleHop(),
  bad: exampleHop({
    keld: "antenna DISH60-18 at 10 m\n    transmits high",
    tarn: "antenna DISH60-18 at 10 m\n    transmits low",
  }).replace("  objective trunk\n", ""),
  check({ hop, result, report }) {
    const lossDb = result.diffractionLossDb ?? 0;
    if (lossDb < WORTH_TELLING_DB) return;
    report({
      at: address("hop", hop.name),
      message: `the path is not clear: ${decibels(lossDb)} of diffraction loss stand in the level`,
    });
  },
};
