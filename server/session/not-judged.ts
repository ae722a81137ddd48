import type { JudgedHop } from "../../language/editor/results.js";
import { address } from "../../shared/design/address.js";
import type { Hop } from "../../shared/design/design.js";
import type { Lack } from "../../shared/evaluate/account/lack.js";
import { lackClause } from "../../shared/words/lacks.js";
import { shown } from "../../shared/words/message.js";
import { reasonOf } from "../files/hop-files.js";

/** What is left of a hop whose evaluation failed by a fault of the program: its name, and a finding that says so. */
export function notJudged(hop: Hop, error: unknown): JudgedHop {
  const lack: Lack = {
    code: "refusal",
    of: ["path"],
    reason: { code: "evaluation-failed", hop: hop.name, why: reasonOf(error) },
  };
  return {
    hop,
    result: {
      hop: hop.name,
      ends: [hop.ends[0].site.name, hop.ends[1].site.name],
      clearance: [],
      directions: [],
      carriers: [],
      inputs: [],
      methods: [],
      missing: [lack],
      notes: [],
    },
    findings: [
      {
        rule: "internal-fault",
        severity: "error",
        at: address("hop", hop.name),
        message: shown(lackClause(lack)),
        help: "Tell the maintainers, with the text of this hop.",
      },
    ],
  };
}
