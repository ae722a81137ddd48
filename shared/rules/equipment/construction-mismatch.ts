import { address } from "../../design/address.js";
import type { Fix } from "../../design/fact-change.js";
import { arrangementByName } from "../../radio/arrangements.js";
import { exampleHop } from "../example-preamble.js";
import { takeArrangement } from "../fixes/arrangement.js";
import type { Mending } from "../fixes/mending.js";
import type { HopRule } from "../rule.js";

export const constructionMismatch: HopRule = {
  scope: "hop",
  id: "construction-mismatch",
  severity: "error",
  arrangements: ({ bandOfPair }) => bandOfPair === undefined,
  title: "The radio must be built as the arrangement says",
  checks:
    "Construction of the radio (split-mount, all-outdoor, all-indoor) against the arrangement's. A dual-band pair may mix them.",
  why: "Cards, cables, feeders and losses follow from the construction: with the wrong one the parts list and the level are those of another radio.",
  fix: "Choose the arrangement with the construction of the radio in front, or another radio.",
  source: "common practice",
  needs: [],
  restsOn: ["arrangement"],
  fixes: arrangementOfRadio,
  good: exampleHop(),
  bad: `radio R18O like R18 {
  construction all-outdoor
}

${exampleHop({ hop: "polarization vertical\n  radio R18O\n  mode 55 MHz 128QAM\n  arrangement 1+0" })}`,
  check({ hop, report }) {
    const built = hop.radio?.unit?.construction;
    const facts = arrangementByName(hop.arrangement.name);
    if (built === undefined || facts === undefined || facts.construction === built) return;
    if (facts.bandOfPair !== undefined) return;
    report({
      at: address("hop", hop.name, "arrangement"),
      message: `${hop.arrangement.name} is ${facts.construction}, ${hop.radio!.name} is ${built}`,
      related: [{ at: address("radio", hop.radio!.name, "construction"), message: built }],
    });
  },
};

/** The arrangement of the same words with the construction of the radio in front. */
function arrangementOfRadio({ hop }: Mending): readonly Fix[] {
  const built = hop?.radio?.unit?.construction;
  if (!hop || built === undefined) return [];
  const bare = hop.arrangement.name.replace(/^all-(outdoor|indoor) /, "");
  return takeArrangement(hop, built === "split-mount" ? bare : `${built} ${bare}`);
}
