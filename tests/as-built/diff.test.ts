/** A comparison tells a reading that was added, and a promise that moved out of the window of an old one. */
import { rmSync } from "node:fs";
import { expect, test } from "vitest";
import { EXAMPLE_PREAMBLE, exampleHop } from "../../shared/rules/example-preamble.js";
import { TestRepository } from "../compare/repository.js";

/** A repository has no terrain: the ground at the ends is stated. */
const SITES = EXAMPLE_PREAMBLE.replaceAll("structure mast", "ground 200 m\n  structure mast");
const text = (gainDbi: number, ...readings: readonly string[]) =>
  `${SITES.replace("gain 38.5 dBi", `gain ${gainDbi} dBi`)}\n${exampleHop({
    more: readings.map((one) => `measured ${one}`).join("\n  "),
  })}`;

async function changed(before: string, after: string) {
  const repository = TestRepository.create();
  try {
    repository.write({ "net.hop": before });
    const was = repository.commit("before");
    repository.write({ "net.hop": after });
    const { hops } = await repository.changes(was, repository.commit("after"));
    return hops.map(({ hop, decisions, findings, worse }) => ({
      hop,
      decisions: decisions.map((one) => [one.was, one.is]),
      findings: findings.map(({ rule, status }) => `${status} ${rule}`),
      worse,
    }));
  } finally {
    rmSync(repository.root, { recursive: true, force: true });
  }
}

/** Without terrain the level is that of the clear path. */
const READ = "-41.6 dBm at TARN on 2026-05-02";

test("a reading that is written down is a decision of the hop, and what it tells is new", async () => {
  const [hop] = await changed(text(38.5), text(38.5, READ));
  expect(hop!.decisions).toEqual([[undefined, `measured ${READ}`]]);
  expect(hop!.findings).toContain("new measured-missing");
  expect(hop!.worse).toBe(false);
});

test("a catalogue that is corrected moves the promise out of the window of an old reading, and the hop is worse", async () => {
  const both = [READ, "-40.9 dBm at KELD on 2026-05-02"];
  const [hop] = await changed(text(38.5, ...both), text(42, ...both));
  expect(hop!.decisions).toEqual([]);
  expect(hop!.findings.filter((one) => one.endsWith("measured-outside-window")).length).toBe(2);
  expect(hop!.worse).toBe(true);
});

test("where the promise of that day was noted, the reading is told as from before a change", async () => {
  const noted = [
    "-41.6 dBm at TARN promised -41 dBm on 2026-05-02",
    "-40.9 dBm at KELD promised -40.4 dBm on 2026-05-02",
  ];
  const [hop] = await changed(text(38.5, ...noted), text(42, ...noted));
  expect(hop!.findings.filter((one) => one.includes("measured-"))).toEqual([
    "new measured-before-change",
    "new measured-before-change",
  ]);
});
