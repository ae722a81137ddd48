import { readingPlace } from "../../as-built/words.js";
import { address, nth } from "../../design/address.js";
import { dayAfter } from "../../design/day.js";
import type { NetworkRule } from "../rule.js";
import { measuredHop } from "./example-reading.js";

export const measuredInFuture: NetworkRule = {
  scope: "network",
  id: "measured-in-future",
  severity: "warning",
  title: "Nothing is measured before its day",
  checks:
    "The days of measured levels and of what was built against today's date; a day more, as it is tomorrow already elsewhere.",
  why: "Of several readings the latest counts: one with the year mistyped hides all that follow for years, and an acceptance with such a day is worth nothing.",
  fix: "Write the day on which it was read.",
  source: "common practice",
  good: measuredHop("-41.6 dBm at TARN on 2026-05-02"),
  bad: measuredHop("-41.6 dBm at TARN on 9996-05-02"),
  check({ design, licencesOn: { today }, report }) {
    const last = dayAfter(today);
    const help = "write the day on which it was read";
    for (const { name, measured = [], ends } of design.hops.values()) {
      for (const [index, reading] of measured.entries()) {
        if (reading === undefined || reading.on <= last) continue;
        const at = address("hop", name, nth("measured", index));
        const message = `${readingPlace(reading)} is read on ${reading.on}, which is still to come`;
        report({ at, about: readingPlace(reading), message, help }, name);
      }
      for (const { site, asBuilt } of ends) {
        if (asBuilt?.on === undefined || asBuilt.on <= last) continue;
        const at = address("hop", name, site.name, "as-built");
        const message = `${site.name} is looked at as built on ${asBuilt.on}, which is still to come`;
        report({ at, about: site.name, message, help }, name);
      }
    }
  },
};
