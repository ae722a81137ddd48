import { TOLERANCES } from "../../licence/departures.js";
import type { Held } from "../../licence/held.js";
import { grantedWords, isWords, licenceName } from "../../licence/words.js";
import { licensedAgain } from "../fixes/licensed.js";
import type { NetworkRule } from "../rule.js";
import { licensedHop } from "./example-licence.js";

export const licenceDiffers: NetworkRule = {
  scope: "network",
  id: "licence-differs",
  severity: "error",
  title: "A hop sends what its licence grants",
  checks: `What each end sends against its licence: frequency to ${TOLERANCES.frequencyHz / 1000} kHz, bandwidth not wider, polarization, EIRP in the strongest mode not above by more than ${TOLERANCES.eirpDb} dB, antenna, height to ${TOLERANCES.heightM} m, position to ${TOLERANCES.positionM} m. It is told at the line that decides the figure. What the licence does not state is held against nothing.`,
  why: "A transmitter that is not as licensed is on the air without a licence, and protects nobody and is not protected. An edit that touches a licensed figure has to say so before it is built.",
  fix: "Write the licensed figure again, or have the licence amended and write down what was granted; until then accept it with the reason.",
  source: "common practice; the tolerances are ours, no source",
  good: licensedHop(
    "frequency 18.93 GHz\n  bandwidth 55 MHz\n  emission 55M0D7W\n  polarization vertical\n  eirp 60 dBm\n  antenna DISH60-18\n  height 40 m\n  at 47.5 -30.5\n  since 2020-01-01",
  ),
  bad: licensedHop("frequency 18.985 GHz"),
  fixes: licensedAgain,
  check({ licences, report }) {
    for (const [hop, { held }] of licences)
      for (const one of held) for (const told of toldOf(one)) report(told, hop);
  },
};

/** One finding a line of the design, whatever departs there. */
function toldOf({ sent, licence, departures }: Held) {
  if (licence === undefined || departures.length === 0) return [];
  return [...Map.groupBy(departures, ({ at }) => at)].map(([at, here]) => ({
    at,
    about: `${licence.number} ${sent.hop} ${sent.site} ${at}`,
    message: `${sent.site} has ${isWords(here)}; ${licenceName(licence)} grants ${grantedWords(here)}`,
    help: "write the licensed figure again, or have the licence amended",
    related: here.map(({ grantedAt, figure }) => ({ at: grantedAt, message: `the licensed ${figure}` })),
  }));
}
