import { elementWords } from "../../words/demands.js";
import { exampleHop } from "../example-preamble.js";
import type { NetworkRule } from "../rule.js";
import { exampleDemand } from "./example-demand.js";
import { outgrownReport } from "./outgrown-report.js";

/** The second hop takes 78 Mbit/s, and what the first loses. */
const BESIDE = exampleHop()
  .replace("hop KELD-TARN", "hop KELD-TARN-B")
  .replace("/ 4", "/ 8")
  .replace("128QAM", "QPSK");

export const failureGrowth: NetworkRule = {
  scope: "network",
  id: "failure-growth",
  severity: "warning",
  ofResults: true,
  title: "What moves when something fails must fit as it grows",
  checks:
    "For every hop the failure of one hop, site or card in which growth makes it too much earliest, where that is before it is outgrown as the network is. Counted as growth without failures is, and told at the demand that adds most until then. Of a hop that some failure overloads today, that is told and its growth in failures is not.",
  why: "The way round is forgotten when the way itself is made wider.",
  fix: "A mode, channel or carrier more on the way round, planned for that year; or another way round.",
  source: "common practice, no source",
  good: `${exampleDemand(["committed 60 Mbit/s", "growth 5 % for 3 years"])}\n\n${BESIDE}`,
  bad: `${exampleDemand(["committed 60 Mbit/s", "growth 20 % for 3 years"])}\n\n${BESIDE}`,
  check({ demands, report }) {
    for (const { hop, outgrownWithout } of demands?.hops.values() ?? [])
      if (outgrownWithout)
        report(outgrownReport(hop, outgrownWithout, `without ${elementWords(outgrownWithout.element)}, `));
  },
};
