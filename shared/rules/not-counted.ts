import { dataKey } from "../evaluate/account/data.js";
import { noteFacts } from "../evaluate/account/note-facts.js";
import { asClause } from "../words/message.js";
import { noteMessage } from "../words/notes.js";
import { exampleHop } from "./example-preamble.js";
import { gathering } from "./rule.js";
import { sharedRemarks } from "./shared-remarks.js";

export const notCounted = gathering({
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
  ...sharedRemarks("not-counted", (hop, { availability, notes }) => {
    if (hop.objective?.availabilityPercent === undefined || availability === undefined) return [];
    return notes
      .filter((note) => noteFacts(note).leavesOut)
      .map((note) => ({ about: dataKey(note), message: asClause(noteMessage(note)), at: "network" }));
  }),
});
