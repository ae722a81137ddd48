import { address } from "../../design/address.js";
import type { Fix } from "../../design/fact-change.js";
import { arrangementByName } from "../../radio/arrangements.js";
import { exampleHop } from "../example-preamble.js";
import { takeArrangement } from "../fixes/arrangement.js";
import type { Mending } from "../fixes/mending.js";
import type { HopRule } from "../rule.js";

const XPIC = {
  hop: "polarization vertical\n  radio R18P\n  mode 55 MHz 128QAM\n  arrangement 2+0 xpic",
  keld: "antenna DISH60-18-VH at 40 m\n    coupler O18 direct\n    transmits high",
  tarn: "antenna DISH60-18-VH at 40 m\n    coupler O18 direct\n    transmits low",
};
const DUAL = "antenna DISH60-18-VH like DISH60-18 {\n  polarizations dual\n}\n\n";

export const xpicMissing: HopRule = {
  scope: "hop",
  id: "xpic-missing",
  severity: "error",
  arrangements: ({ xpicPairs }) => xpicPairs > 0,
  title: "Two polarizations of one channel need a radio with XPIC",
  checks: "Whether the radio of a hop whose arrangement pairs polarizations can cancel the other one.",
  why: "Without the canceller the two carriers disturb each other; above low modulations neither works.",
  fix: "Choose a radio with XPIC, or a channel for each polarization (dual-polarization).",
  source: "common practice",
  needs: [],
  restsOn: ["arrangement"],
  fixes: withoutXpic,
  good: `${DUAL}radio R18P like R18 {\n  xpic yes\n}\n\n${exampleHop(XPIC)}`,
  bad: `${DUAL}radio R18P like R18 {\n  xpic no\n}\n\n${exampleHop(XPIC)}`,
  check({ hop, report }) {
    const facts = arrangementByName(hop.arrangement.name);
    if (facts === undefined || facts.xpicPairs === 0 || hop.radio?.unit?.xpic !== false) return;
    report({
      at: address("hop", hop.name, "radio"),
      message: `${hop.arrangement.name} needs XPIC, ${hop.radio.name} has none`,
      related: [{ at: address("radio", hop.radio.name, "xpic"), message: `${hop.radio.name} has no XPIC` }],
    });
  },
};

/** A channel for each polarization in place of both on one. */
function withoutXpic({ hop }: Mending): readonly Fix[] {
  return hop ? takeArrangement(hop, hop.arrangement.name.replace(/ xpic$/, " dual-polarization")) : [];
}
