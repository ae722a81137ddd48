import type { Outgrown } from "../../demands/growth.js";
import { address } from "../../design/address.js";
import { bitRate } from "../../format/numbers.js";
import type { Report } from "../rule.js";

/** That a hop is outgrown, at the demand that adds most. @param when with its comma; empty: as the network is */
export function outgrownReport(
  hop: string,
  { year, committedBps, carriedBps, mostBy }: Outgrown,
  when = "",
): Report {
  return {
    at: address("demand", mostBy, "growth"),
    about: hop,
    message: `${when}${hop} is outgrown in year ${year}: ${bitRate(committedBps)} committed then, it carries ${bitRate(carriedBps)}`,
    related: [{ at: address("hop", hop), message: `carries ${bitRate(carriedBps)}` }],
  };
}
