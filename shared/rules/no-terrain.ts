import { address } from "../design/address.js";
import { lackClause } from "../words/lacks.js";
import { shown } from "../words/message.js";
import { exampleHop } from "./example-preamble.js";
import type { HopRule } from "./rule.js";

export const noTerrain: HopRule = {
  scope: "hop",
  id: "no-terrain",
  severity: "info",
  title: "The path has no profile",
  checks:
    "Whether terrain or a survey gives heights along the path. Where an objective asks what they are needed for, not-judged tells it.",
  why: "Without a profile neither clearance nor diffraction is judged, and the current multipath method gives no availability; a budget alone says nothing about line of sight.",
  fix: "Name a folder of terrain in the network, or a surveyed profile in the hop.",
  source: "common practice",
  needs: ["distance"],
  quietAfter: ["survey-unusable"],
  good: exampleHop(),
  bad: `// No terrain is named for the southern half of the Earth.\nsite SOUTH {\n  at -47.5 -30.5\n}\n\nsite AUSTRAL {\n  at -47.55 -30.4\n}\n\nhop SOUTH-AUSTRAL {\n  SOUTH { }\n  AUSTRAL { }\n}`,
  check({ hop, result, openLacks, leaveToCause, report }) {
    if (result.profile !== undefined) return;
    if ([...openLacks].some(({ code }) => code === "terrain")) return leaveToCause();
    const lack = result.missing.find(({ of }) => of.includes("profile"));
    const why = lack === undefined ? "" : `: ${shown(lackClause(lack))}`;
    const unknown = hop.ends.filter(({ site }) => site.groundM === undefined).map(({ site }) => site.name);
    const ground = unknown.length > 0 ? ` and the ground of ${unknown.join(" and ")} is not known` : "";
    report({
      at: address("hop", hop.name),
      message: `clearance is not judged${ground}${why}`,
    });
  },
};
