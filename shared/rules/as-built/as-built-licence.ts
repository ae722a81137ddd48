import { address } from "../../design/address.js";
import { builtDepartures } from "../../licence/built.js";
import { TOLERANCES } from "../../licence/departures.js";
import { grantedWords, isWords, licenceName } from "../../licence/words.js";
import { licensedHop } from "../licences/example-licence.js";
import type { NetworkRule } from "../rule.js";

const GRANTED = "frequency 18.93 GHz\n  antenna DISH60-18\n  height 40 m\n  since 2020-01-01";
const built = (height: string) =>
  licensedHop(GRANTED).replace(
    "transmits high",
    `transmits high\n    as-built on 2026-05-02 {\n      height ${height}\n    }`,
  );

export const asBuiltLicence: NetworkRule = {
  scope: "network",
  id: "as-built-licence",
  severity: "error",
  title: "What was built is what the licence grants",
  checks: `Antenna and height as built against the licence of what the end sends: the antenna by its name, the height to ${TOLERANCES.heightM} m. What the plan departs in by itself is told there.`,
  why: "The plan may keep a licence that the mast does not. What is on the air is what hangs there.",
  fix: "Have it built as licensed, or have the licence amended and write down what was granted.",
  source: "common practice; the tolerance is ours, no source",
  good: built("40.4 m"),
  bad: built("36.5 m"),
  check({ licences, report }) {
    for (const [name, { hop, held }] of licences)
      for (const one of held) {
        const { licence, sent } = one;
        const departures = builtDepartures(hop, one);
        if (licence === undefined || departures.length === 0) continue;
        report(
          {
            at: address("hop", name, sent.site, "as-built", departures[0]!.figure),
            about: `${licence.number} ${sent.site}`,
            message: `${sent.site} has ${isWords(departures)} as built; ${licenceName(licence)} grants ${grantedWords(departures)}`,
            help: "have it built as licensed, or have the licence amended",
            related: departures.map(({ grantedAt, figure }) => ({
              at: grantedAt,
              message: `the licensed ${figure}`,
            })),
          },
          name,
        );
      }
  },
};
