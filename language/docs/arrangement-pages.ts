/** A page for each arrangement, and their list; made from the table of arrangements and from examples that are judged. */

import type { Design } from "../../shared/design/design.js";
import { type SitePlan, sitePlans } from "../../shared/equipment/site-plan.js";
import { siteWiring } from "../../shared/equipment/wiring/site-wiring.js";
import { evaluateHop } from "../../shared/evaluate/hop.js";
import { ARRANGEMENTS, type ArrangementFacts } from "../../shared/radio/arrangements.js";
import { drawChain } from "../../shared/report/draw/system/chain/draw-chain.js";
import { arrangementExample, TEACHING_STOCK } from "../../shared/report/teach/arrangement-example.js";
import { type ArrangementShown, arrangementLesson } from "../../shared/report/teach/arrangement-lesson.js";
import { AMBIGUOUS, COMMON_PARTS } from "../../shared/report/teach/arrangement-words.js";
import type { Lesson } from "../../shared/report/teach/lesson.js";
import { DesignModel } from "../model/design-model.js";
import { readSource } from "../model/source-file.js";
import { lessonPage } from "./lesson-page.js";

/** The example of an arrangement, read. */
export function exampleDesign(facts: ArrangementFacts): Design {
  const model = new DesignModel("/arrangement");
  model.setFile(readSource("/arrangement/example.hop", `${TEACHING_STOCK}\n${arrangementExample(facts)}`));
  return model.design();
}

export function lessonOf(facts: ArrangementFacts): Lesson {
  const design = exampleDesign(facts);
  const plans = sitePlans(design);
  const wiring = siteWiring(plans.get("DELL")!);
  return arrangementLesson(facts, { wiring, drawing: arrangementDrawing(facts, design, plans) });
}

/** Beyond so many units a drawing repeats itself, and a page of it is large. */
const MOST_DRAWN = 4;

function arrangementDrawing(
  { transceivers, bandOfPair }: ArrangementFacts,
  { hops }: Design,
  plans: ReadonlyMap<string, SitePlan>,
): ArrangementShown["drawing"] {
  const hop = hops.get(bandOfPair === "high" ? "DELL-FELL-80" : "DELL-FELL");
  if (hop === undefined || transceivers > MOST_DRAWN) return undefined;
  return drawChain(hop, evaluateHop(hop, { groundM: [200, 200], profileKind: "terrain" }), plans);
}

/** File name of an arrangement's page, without ending. */
function pageName({ name }: ArrangementFacts): string {
  return name.replaceAll(" ", "-");
}

/** By their path below the folder of the pages: pages and the drawings beside them. */
export function arrangementPages(): ReadonlyMap<string, string> {
  return new Map(ARRANGEMENTS.flatMap((facts) => [...lessonPage(lessonOf(facts), pageName(facts))]));
}

export function arrangementsIndexPage(): string {
  const rows = ARRANGEMENTS.map((facts) => {
    const { name, title, transceivers, antennas, coupler, couplers, protects } = facts;
    const joined = coupler === undefined ? "none" : `${couplers} ${coupler}`;
    return `| [${name}](arrangements/${pageName(facts)}.md) | ${title} | ${transceivers} | ${antennas} | ${joined} | ${protects.join("; ")} |`;
  });
  return `# Arrangements

Made from the table of arrangements (\`shared/radio/arrangements.ts\`); do not edit by hand. \`hopwright explain
--arrangement "2+0 xpic"\` prints the same page.

What hangs at one end of a hop, what it protects and what it costs. Counts and what is protected are common practice of
the trade; usual losses are common practice too, from memory, unconfirmed, but for the 3.01 dB that half of the power
is. A design counts the losses of its catalogue.

${COMMON_PARTS}

| arrangement | what it is | units an end | antennas | couplers | protects |
| --- | --- | --- | --- | --- | --- |
${rows.join("\n")}

## Words that mislead

${AMBIGUOUS.map(({ words, text }) => `- "${words}": ${text}`).join("\n")}

## What the examples stand on

The examples of every page take this network for granted; all of it is invented. With the lines of a page behind it, it
is a whole design.

\`\`\`hop
${TEACHING_STOCK.trim()}
\`\`\`
`;
}
