import { dataKey } from "../evaluate/data.js";
import { noteFacts } from "../evaluate/note-facts.js";
import { asClause } from "../words/message.js";
import { noteMessage } from "../words/notes.js";
import { exampleHop } from "./example-preamble.js";
import type { NetworkRule } from "./rule.js";
import { type Remarks, remark, reportShared } from "./shared-remarks.js";

export const notCounted: NetworkRule = {
  scope: "network",
  ofResults: true,
  id: "not-counted",
  severity: "info",
  title: "A cause of outage is not counted",
  checks:
    "Causes that the availability of a hop leaves out, because the design does not say what their method needs or asks to leave methods out that are not checked. Said once for all hops.",
  why: "The figure is better than the hop by what it leaves out.",
  fix: "State what the message names: a signature or dispersive margin of the radio, its mtbf, the hop's repair-time, the antennas' xpd, the probability of rain.",
  source: "Rec. ITU-R P.530-18 sections 2.4.2, 4, 5.1 and 6.2",
  good: exampleHop(),
  bad: `radio R18X like R18 {\n  mode 55 MHz 256QAM rate 360 Mbit/s power 18 dBm threshold -66 dBm\n}\n\n${exampleHop(
    {
      hop: "polarization vertical\n  radio R18X\n  mode 55 MHz 256QAM",
    },
  )}`,
  check(context) {
    const remarks: Remarks = new Map();
    for (const hop of context.design.hops.values()) {
      if (hop.objective?.availabilityPercent === undefined) continue;
      const result = context.results.get(hop.name);
      if (result?.availability === undefined) continue;
      for (const note of result.notes) {
        if (!noteFacts(note).leavesOut) continue;
        const message = asClause(noteMessage(note));
        remark(remarks, { about: dataKey(note), message, at: "network" }, hop.name);
      }
    }
    reportShared(context, notCounted.id, remarks);
  },
};
