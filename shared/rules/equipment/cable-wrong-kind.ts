import { address } from "../../design/address.js";
import type { CableKind } from "../../design/equipment.js";
import { arrangementByName } from "../../radio/arrangements.js";
import { exampleHop } from "../example-preamble.js";
import type { HopRule } from "../rule.js";

export const cableWrongKind: HopRule = {
  scope: "hop",
  id: "cable-wrong-kind",
  severity: "error",
  title: "The cable must be of the kind that the units take",
  checks:
    "Split-mount units against IF cable, all-outdoor units against Ethernet or fibre, all-indoor radios against any cable to a unit.",
  why: "A split-mount unit takes signal and power from one coaxial cable; an all-outdoor unit takes Ethernet; an all-indoor radio has a feeder and no cable.",
  fix: "Name a cable of the right kind, or remove it.",
  source: "common practice",
  needs: [],
  good: `cable COAX-10 { kind coaxial }\n\n${exampleHop({ keld: "antenna DISH60-18 at 40 m\n    transmits high\n    cable COAX-10" })}`,
  bad: `cable CAT6 { kind ethernet }\n\n${exampleHop({ keld: "antenna DISH60-18 at 40 m\n    transmits high\n    cable CAT6" })}`,
  check({ hop, report }) {
    const facts = arrangementByName(hop.arrangement.name);
    if (facts === undefined) return;
    for (const { site, installation } of hop.ends) {
      const cable = installation?.cable;
      if (cable === undefined) continue;
      const kind = cable.kind ?? "coaxial";
      const construction = hop.radio?.unit?.construction ?? facts.construction;
      if (TAKES[construction].includes(kind)) continue;
      const takes = TAKES[construction].join(" or ");
      report({
        at: address("hop", hop.name, site.name, "cable"),
        message: `${cable.name} at ${site.name} is ${kind}; a radio that is ${construction} takes ${takes || "a feeder and no cable to a unit"}`,
      });
    }
  },
};

const TAKES: Readonly<Record<"split-mount" | "all-outdoor" | "all-indoor", readonly CableKind[]>> = {
  "split-mount": ["coaxial"],
  "all-outdoor": ["ethernet", "fibre"],
  "all-indoor": [],
};
