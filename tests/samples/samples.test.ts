import { cpSync, globSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, describe, expect, test } from "vitest";
import { formatText } from "../../language/format/format.js";
import { judgeFolder } from "../../server/findings/judged-folder.js";
import type { PlacedFinding } from "../../server/findings/placed.js";

/** A day in the sample's own time: no acceptance in it has an end. */
const TODAY = "2026-11-01";
const SAMPLES = fileURLToPath(new URL("../../samples/", import.meta.url));
const copies = mkdtempSync(join(tmpdir(), "hopwright-samples-"));
afterAll(() => rmSync(copies, { recursive: true }));

test.each(globSync("**/*.hop", { cwd: SAMPLES }).sort())("%s has the canonical layout", (file) => {
  const text = readFileSync(join(SAMPLES, file), "utf8");
  expect(formatText(text)).toEqual({ ok: true, text });
});

describe("sample network Eskerfold", () => {
  test("has an exception that it accepts and remarks about unconfirmed channel plans, nothing else", async () => {
    const { hops, findings, terrainProblems } = await judge("eskerfold");
    expect(terrainProblems).toEqual([]);
    expect(hops.size).toBe(14);
    expect(findings).toEqual([
      "accepted clearance SKELHAVEN-RUDDOCK tails.hop: 20 m",
      "info channel-plan-unconfirmed ring.hop: F.383 / 59.3 MHz / 2",
      "info channel-plan-unconfirmed ring.hop: F.497 / 56 MHz / 2",
      "info channel-plan-unconfirmed tails.hop: ECC0507 / 500 MHz / 6",
      "info channel-plan-unconfirmed tails.hop: F.595 / 55 MHz / 4",
      "info channel-plan-unconfirmed tails.hop: F.636 / 56 MHz / 3",
      "info channel-plan-unconfirmed tails.hop: F.637 / 56 MHz / 7",
      // Indoor units are stated at three of its sites.
      "info chassis-unstated sites.hop: GULLSCAR",
      "info coupling-loss-missing ring.hop: GULLSCAR",
      // The ring asks 99.999 %.
      "info ports-proposed sites.hop: COPSE",
      "info ports-proposed sites.hop: HEDGE",
      "info ports-proposed sites.hop: SPINNEY",
      "info rain-estimate network.hop: climate",
      // No radio of the catalogue states a signature.
      "info unchecked-methods network.hop: climate",
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
  const REMARKS = ["F.595 / 55 MHz / 3", "F.636 / 56 MHz / 2", "F.637 / 56 MHz / 5"].map(
    (channel) => `info channel-plan-unconfirmed hops.hop: ${channel}`,
  );
  const BLOCKED = "error clearance ALDER-HAZEL hops.hop: 15 m";
  const RAIN = "error availability BIRCH-ROWAN hops.hop: BIRCH-ROWAN";
  const PARTED = "error demand-route demands.hop: MAPLE to ALDER";
  const READ = 'warning measured-one-low BIRCH-ROWAN hops.hop: -62.8 dBm at ROWAN on 2026-05-02 by "M.K."';
  const ACCEPTED = "accepted clearance MAPLE-WILLOW hops.hop: 20 m";

  test("fail in the four places meant, with one accepted exception", async () => {
    const { findings } = await judge("learning");
    expect(findings).toEqual(
      [
        ...REMARKS,
        "info unchecked-methods network.hop: climate",
        // No demand needs those two.
        "info hop-carries-nothing hops.hop: ALDER-HAZEL",
        "info hop-carries-nothing hops.hop: BIRCH-ROWAN",
        BLOCKED,
        RAIN,
        PARTED,
        READ,
        ACCEPTED,
      ].sort(),
    );
  });

  // What the comments tell a learner to try must do what they say.
  test.each([
    [
      "an antenna above its mast",
      "DISH60-15 at 20 m\n    transmits low",
      "DISH60-15 at 45 m\n    transmits low",
      "antenna-above-structure",
    ],
    [
      "both ends high",
      "DISH60-15 at 20 m\n    transmits low",
      "DISH60-15 at 20 m\n    transmits high",
      "both-ends-same-half",
    ],
    [
      "an antenna of another band",
      "DISH60-15 at 20 m\n    transmits low",
      "DISH60-18 at 20 m\n    transmits low",
      "antenna-out-of-band",
    ],
    ["a line taken away", "  radio R15\n", "", "error not-judged ALDER-BIRCH"],
    [
      "no acceptance",
      '  accept clearance because "the forester keeps these trees at 14 m"\n',
      "",
      "error clearance MAPLE-WILLOW",
    ],
    [
      "an acceptance that has ended",
      "accept clearance because",
      "accept clearance until 2020-01-01 because",
      "acceptance-expired",
    ],
    [
      "both directions on a side lobe",
      'measured -62.8 dBm at ROWAN on 2026-05-02 by "M.K."\n  measured -56.6 dBm',
      "measured -78.2 dBm at ROWAN on 2026-05-02\n  measured -78.2 dBm",
      "warning measured-side-lobe BIRCH-ROWAN",
    ],
    ["what grown trees cost", '"spruce" 14 m', '"spruce" 22 m', "error availability MAPLE-WILLOW"],
  ])("%s is found", async (_what, from, to, expected) => {
    const before = (await judge("learning")).findings;
    const fresh = (await judge("learning", from, to)).findings.filter((finding) => !before.includes(finding));
    expect(fresh.join("\n")).toContain(expected);
  });

  test.each([
    [
      "raising one end clears the ridge",
      "DISH60-18 at 15 m\n    transmits low",
      "DISH60-18 at 31 m\n    transmits low",
      BLOCKED,
    ],
    [
      "raising the other end clears it too",
      "DISH60-18 at 15 m\n    transmits high",
      "DISH60-18 at 34 m\n    transmits high",
      BLOCKED,
    ],
    ["larger antennas at both ends bear the rain", "DISH30-23", "DISH60-23", RAIN],
  ])("%s", async (_what, from, to, gone) => {
    const { findings } = await judge("learning", from, to);
    expect(findings).not.toContain(gone);
    expect(findings.filter((finding) => finding.startsWith("error") && finding !== PARTED)).toHaveLength(1);
  });

  test("a direction that reads what is promised is told no more", async () => {
    const { findings } = await judge("learning", "-62.8 dBm at ROWAN", "-56.9 dBm at ROWAN");
    expect(findings.filter((finding) => finding.includes("measured-"))).toEqual([]);
  });

  test("a larger antenna at one end alone is not enough", async () => {
    const { findings } = await judge(
      "learning",
      "DISH30-23 at 18 m\n    transmits low",
      "DISH60-23 at 18 m\n    transmits low",
    );
    expect(findings).toContain(RAIN);
  });
});

/** Judges a sample as `hopwright check` does, on a copy with one change made in its hops if asked. */
async function judge(sample: string, from?: string, to = "") {
  const folder = from === undefined ? `${SAMPLES}${sample}` : changedCopy(sample, from, to);
  const judged = await judgeFolder(folder, { today: TODAY });
  expect(judged.unreadable).toEqual([]);
  expect(judged.designs).toHaveLength(1);
  const { findings, session, terrainProblems } = judged.designs[0]!;
  return {
    hops: session.results(),
    findings: findings.map(line).sort(),
    terrainProblems,
  };
}

/** For example `error clearance ALDER-HAZEL hops.hop: 15 m`; accepted ones begin with `accepted`. */
function line({ rule, severity, hop, place, accepted }: PlacedFinding): string {
  const at =
    place &&
    `${place.file.split("/").at(-1)}: ${place.lineText.slice(place.column - 1, place.endColumn - 1)}`;
  return [accepted ? "accepted" : severity, rule, hop, at].filter((part) => part !== undefined).join(" ");
}

function changedCopy(sample: string, from: string, to: string): string {
  cpSync(SAMPLES, copies, { recursive: true });
  const file = `${copies}/${sample}/hops.hop`;
  const text = readFileSync(file, "utf8");
  expect(text).toContain(from);
  writeFileSync(file, text.replaceAll(from, to));
  return `${copies}/${sample}`;
}
