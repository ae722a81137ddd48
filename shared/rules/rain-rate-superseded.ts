import { address } from "../design/address.js";
import { inputShown } from "../words/inputs.js";
import { shown } from "../words/message.js";
import { exampleHop } from "./example-preamble.js";
import type { HopRule } from "./rule.js";

export const rainRateSuperseded: HopRule = {
  scope: "hop",
  id: "rain-rate-superseded",
  severity: "info",
  title: "The rain rate comes from a superseded zone",
  checks: "Whether a rain zone stands in for a rain rate.",
  why: "Zones are coarse and were withdrawn; the rate of a place may differ by half.",
  fix: "State the rain rate exceeded for 0.01 % of the year.",
  source: "Rec. ITU-R PN.837-1 (superseded)",
  needs: ["levels"],
  good: exampleHop(),
  bad: exampleHop({ more: "climate {\n    rain 60 mm/h at 0.1 %\n    rain-zone K\n  }" }),
  check({ hop, result, report }) {
    const used = result.inputs.find(({ code }) => code === "rain-rate");
    if (used?.standing !== "superseded") return;
    report({
      at: address("hop", hop.name),
      message: `rain is reckoned with ${shown(inputShown(used).value)}, of the superseded rain zone ${hop.climate.rainZone}`,
      related: [{ at: "network / climate / rain-zone", message: "rain zone" }],
    });
  },
};
