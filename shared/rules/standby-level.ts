import { address } from "../design/address.js";
import { apart, dbm } from "../format/numbers.js";
import { arrangementByName } from "../radio/arrangements.js";
import { exampleHop } from "./example-preamble.js";
import { weakerDirection } from "./judged-modes.js";
import type { HopRule } from "./rule.js";

export const standbyLevel: HopRule = {
  scope: "hop",
  id: "standby-level",
  severity: "error",
  title: "The standby arm must reach the threshold too",
  checks:
    "Received level after one switch to the standby arm against the threshold of the mode that carries the capacity asked for.",
  why: "A standby unit that lies below threshold in clear air protects in name only.",
  fix: "A coupler with less difference between its arms, larger antennas, or a lower mode.",
  source: "common practice",
  needs: ["levels"],
  quietAfter: ["path-length", "frequency-outside-tuning", "level-below-threshold"],
  good: exampleHop({
    hop: "polarization vertical\n  radio R18\n  mode 55 MHz 128QAM\n  arrangement 1+1 hot-standby",
    keld: "antenna A18-06 at 40 m\n    coupler H18-U direct\n    transmits high",
    tarn: "antenna A18-06 at 40 m\n    coupler H18-U direct\n    transmits low",
  }),
  bad: exampleHop({
    hop: "polarization vertical\n  radio R18\n  mode 55 MHz 128QAM\n  arrangement 1+1 hot-standby",
    keld: "antenna A18-06 at 40 m\n    coupler H18-U direct\n    transmits high\n    extra-loss 22 dB",
    tarn: "antenna A18-06 at 40 m\n    coupler H18-U direct\n    transmits low",
  }),
  check({ hop, result, report }) {
    if (!arrangementByName(hop.arrangement.name)?.hotStandby) return;
    const weaker = weakerDirection(hop, result);
    const standbyDbm = weaker?.direction.standbyReceivedLevelDbm;
    if (weaker === undefined || standbyDbm === undefined) return;
    // The standby level is told for the reference mode; the judged mode may have another power.
    const { direction, mode } = weaker;
    const levelDbm = standbyDbm + (mode.receivedLevelDbm - direction.receivedLevelDbm);
    if (levelDbm > mode.thresholdDbm) return;
    const [level, threshold] = apart(dbm, levelDbm, mode.thresholdDbm);
    const onSecond = (arrangementByName(hop.arrangement.name)?.antennas ?? 1) > 1;
    const place = onSecond ? "with a diversity antenna in use" : "on a standby arm";
    report({
      at: address("hop", hop.name, direction.to, onSecond ? "diversity-antenna" : "coupler"),
      message: `${place} ${direction.to} receives ${level}, below the threshold ${threshold} of ${mode.modulation}`,
    });
  },
};
