import type { HopResult } from "../evaluate/account/result.js";
import { exampleHop } from "./example-preamble.js";
import { gathering } from "./rule.js";
import { type Remark, sharedRemarks } from "./shared-remarks.js";

const HIGH = `objective high like trunk {
  availability 99.9994 %
}

`;
const CLEAR = "climate {\n    rain 8 mm/h\n    logK -7\n  }";

export const rainEstimate = gathering({
  scope: "network",
  ofResults: true,
  id: "rain-estimate",
  severity: "info",
  remarksOn: "estimates of rain",
  title: "An objective is met only by the law of rain continued beyond its range",
  checks:
    "Availability and link availability that are met by the estimate of rain in less than 0.001 % of the year, and would not be with the full 0.001 % that the Recommendation leaves room for. Said once for all hops.",
  why: "The law of rain is stated for 0.001 to 1 % of the year. Nobody has confirmed it below, where an objective near 99.999 % is decided.",
  fix: "Read the availability with that in mind. `rare-rain bound` in the climate judges by the Recommendation alone; what it cannot decide stays open then.",
  source: "Rec. ITU-R P.530-18 section 2.4.1",
  good: `${HIGH}${exampleHop()}`,
  bad: `${HIGH}${exampleHop({ more: CLEAR }).replace("objective trunk", "objective high")}`,
  ...sharedRemarks("rain-estimate", (_, result) => (isMetByEstimate(result) ? [ESTIMATE] : [])),
});

const ESTIMATE: Remark = {
  about: "law-continued",
  message:
    "the availability asked is met by an estimate: rain below 0.001 % of the year is outside the range of Rec. ITU-R P.530-18 section 2.4.1, whose law is continued",
  at: "network / climate",
};

function isMetByEstimate({ availability: found, objectives = [] }: HopResult): boolean {
  const { verdict, atLeastPercent, objectivePercent } = found ?? {};
  if (verdict === "met" && atLeastPercent !== undefined && atLeastPercent < objectivePercent!) return true;
  return objectives.some((one) => one.verdict === "met" && (one.atMostPercent ?? 0) > one.allowedPercent);
}
