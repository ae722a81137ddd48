import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { describe, expect, test } from "vitest";
import { readSource } from "../../language/model/source-file.js";
import { DesignSession } from "../../server/session/design-session.js";
import { loadProject } from "../../server/session/load.js";

/** A day in the sample's own time: no acceptance in it has an end. */
const TODAY = "2026-11-01";

describe("sample network Eskerfold", () => {
  test("has an exception that it accepts and remarks about unconfirmed channel plans, nothing else", async () => {
    const { text, hops, findings, terrainProblems } = await judge("eskerfold");
    expect(text).toEqual([]);
    expect(terrainProblems).toEqual([]);
    expect(hops.size).toBe(14);
    expect(findings).toEqual([
      "accepted clearance hop SKELHAVEN-RUDDOCK / RUDDOCK / antenna.at",
      "info channel-plan-unconfirmed hop CRAWFELL-SIFTLAW / channel",
      "info channel-plan-unconfirmed hop GULLSCAR-SKELHAVEN / channel",
      "info channel-plan-unconfirmed hop HIGHFOLD-OSTREL / channel",
      "info channel-plan-unconfirmed hop HIGHFOLD-TOLLBECK / channel",
      "info channel-plan-unconfirmed hop LARKHOWE-GULLSCAR / channel",
      "info channel-plan-unconfirmed hop LARKHOWE-MERROW / channel",
      "info channel-plan-unconfirmed hop OSTREL-ANSELBAY / channel",
      "info channel-plan-unconfirmed hop OSTREL-LARKHOWE / channel",
      "info channel-plan-unconfirmed hop SKELHAVEN-RUDDOCK / channel",
    ]);
  });

  test("every hop is computed in full: free of diffraction, both directions, an availability", async () => {
    const { hops } = await judge("eskerfold");
    for (const [name, { result }] of hops) {
      expect(result.missing, name).toEqual([]);
      expect(result.directions.length, name).toBe(2);
      // Below 0.6 of the first zone the level would have to count with diffraction.
      expect(Math.min(...result.clearance.map((clearance) => clearance.fraction)), name).toBeGreaterThan(0.6);
      expect(result.availability, name).toBeDefined();
    }
  });
});

describe("sample lessons", () => {
  const REMARKS = ["ALDER-BIRCH", "ALDER-HAZEL", "BIRCH-ROWAN", "MAPLE-WILLOW"].map(
    (hop) => `info channel-plan-unconfirmed hop ${hop} / channel`,
  );
  const BLOCKED = "error clearance hop ALDER-HAZEL / HAZEL / antenna.at";
  const RAIN = "error availability hop BIRCH-ROWAN";
  const ACCEPTED = "accepted clearance hop MAPLE-WILLOW / WILLOW / antenna.at";

  test("fail in the two places meant, with one accepted exception", async () => {
    const { text, findings } = await judge("learning");
    expect(text).toEqual([]);
    expect(findings).toEqual([...REMARKS, BLOCKED, RAIN, ACCEPTED].sort());
  });

  // What the comments tell a learner to try must do what they say.
  test.each([
    [
      "an antenna above its mast",
      "A15-06 at 20 m\n    transmits low",
      "A15-06 at 45 m\n    transmits low",
      "antenna-above-structure",
    ],
    [
      "both ends high",
      "A15-06 at 20 m\n    transmits low",
      "A15-06 at 20 m\n    transmits high",
      "both-ends-same-half",
    ],
    [
      "an antenna of another band",
      "A15-06 at 20 m\n    transmits low",
      "A18-06 at 20 m\n    transmits low",
      "antenna-out-of-band",
    ],
    ["a line taken away", "  radio R15\n", "", "hop-incomplete"],
    [
      "no acceptance",
      '  accept clearance because "the forester keeps these trees at 14 m"\n',
      "",
      "error clearance hop MAPLE-WILLOW",
    ],
    [
      "an acceptance that has ended",
      "accept clearance because",
      "accept clearance until 2020-01-01 because",
      "acceptance-expired",
    ],
    ["what grown trees cost", '"spruce" 14 m', '"spruce" 22 m', "error availability hop MAPLE-WILLOW"],
  ])("%s is found", async (_what, from, to, expected) => {
    const before = (await judge("learning")).findings;
    const fresh = (await judge("learning", from, to)).findings.filter((finding) => !before.includes(finding));
    expect(fresh.join("\n")).toContain(expected);
  });

  test.each([
    [
      "raising one end clears the ridge",
      "A18-06 at 15 m\n    transmits low",
      "A18-06 at 31 m\n    transmits low",
      BLOCKED,
    ],
    [
      "raising the other end clears it too",
      "A18-06 at 15 m\n    transmits high",
      "A18-06 at 34 m\n    transmits high",
      BLOCKED,
    ],
    ["larger antennas at both ends bear the rain", "A23-03", "A23-06", RAIN],
  ])("%s", async (_what, from, to, gone) => {
    const { findings } = await judge("learning", from, to);
    expect(findings).not.toContain(gone);
    expect(findings.filter((finding) => finding.startsWith("error"))).toHaveLength(1);
  });

  test("a larger antenna at one end alone is not enough", async () => {
    const { findings } = await judge(
      "learning",
      "A23-03 at 18 m\n    transmits low",
      "A23-06 at 18 m\n    transmits low",
    );
    expect(findings).toContain(RAIN);
  });
});

/** Loads a sample as the command line does, with one change made in its hops if asked, and judges it. */
async function judge(sample: string, from?: string, to = "") {
  const folder = fileURLToPath(new URL(`../../samples/${sample}`, import.meta.url));
  const { project, unreadable } = loadProject(folder);
  expect(unreadable).toEqual([]);
  if (from !== undefined) {
    const path = `${folder.replaceAll("\\", "/")}/hops.hop`;
    const text = readFileSync(path, "utf8");
    expect(text).toContain(from);
    project.setFile(readSource(path, text.replaceAll(from, to)));
  }
  expect(project.designs()).toHaveLength(1);
  const model = project.designs()[0]!;
  const session = new DesignSession(model, { today: TODAY });
  await session.update();
  const all = [
    ...[...session.results().values()].flatMap((judged) => judged.findings),
    ...session.networkFindings(),
  ];
  return {
    text: [...model.allFiles()].flatMap((file) => model.problemsOf(file.path)),
    hops: session.results(),
    findings: all
      .map(({ rule, severity, at, accepted }) => `${accepted ? "accepted" : severity} ${rule} ${at}`)
      .sort(),
    terrainProblems: session.terrain()?.problems,
  };
}
