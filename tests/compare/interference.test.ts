/** A hop that nobody touched, whose threshold another one raises, shows up with that figure and with whom it is from. */
import { afterEach, expect, test } from "vitest";
import { hopHistory } from "../../server/compare/hop-history.js";
import { repositoryOf, revisionOf } from "../../server/git/repository.js";
import { files } from "./network.js";
import { TestRepository, TODAY } from "./repository.js";

const made: TestRepository[] = [];

function committed(): TestRepository {
  const repository = TestRepository.create();
  made.push(repository);
  repository.write(files());
  repository.commit("before");
  return repository;
}

afterEach(() => {
  for (const repository of made.splice(0)) repository.remove();
});

const CHANNEL = ["hops/south.hop", "channel P18 / 55 MHz / 8", "channel P18 / 55 MHz / 4"] as const;

test("another hop that comes onto its channel", async () => {
  const repository = committed();
  repository.edit(...CHANNEL);
  const changes = await repository.changes("HEAD");
  const felt = changes.hops.find(({ hop }) => hop === "KELD-TARN")!;
  expect(felt.edited).toBe(false);
  const raised = felt.figures.filter(({ kind }) => kind === "degradation");
  expect(raised.length).toBeGreaterThan(0);
  for (const { was, verdict, by, site } of raised) {
    expect(was).toBe("0.0 dB");
    expect(verdict).toBe("worse");
    expect(by).toBeGreaterThan(1);
    // What the threshold rises by the margin falls by, both as printed.
    const margin = felt.figures.find((one) => one.kind === "margin" && one.site === site)!;
    expect(margin.by).toBeCloseTo(-by!, 9);
  }
  expect(felt.causes.map(({ kind, text }) => `${kind}: ${text}`)).toEqual(["neighbour: hop FELL-TARN"]);
  expect(felt.findings.map(({ rule, status }) => `${rule} ${status}`)).toContain(
    "interference-degradation new",
  );
  expect(changes.hops.map(({ hop }) => hop)).not.toContain("KELD-MOSS");
});

test("the same backwards is a gain", async () => {
  const repository = committed();
  repository.edit(...CHANNEL);
  repository.commit("onto one channel");
  repository.edit(CHANNEL[0], CHANNEL[2], CHANNEL[1]);
  const changes = await repository.changes("HEAD");
  const felt = changes.hops.find(({ hop }) => hop === "KELD-TARN")!;
  expect(felt.figures.filter(({ kind }) => kind === "degradation").map(({ verdict }) => verdict)).toContain(
    "better",
  );
  expect(felt.worse).toBe(false);
});

test("what the network states of the air counts for every hop that is interfered with, and for no other", async () => {
  const repository = committed();
  repository.edit(...CHANNEL);
  repository.commit("onto one channel");
  repository.write({ "air.hop": "interference {\n  long-term 1 %\n}\n" });
  const changes = await repository.changes("HEAD");
  const told = changes.hops.map(({ hop, causes }) => [hop, causes.map(({ text }) => text)]);
  expect(Object.fromEntries(told)).toEqual({ "KELD-TARN": ["interference"], "FELL-TARN": ["interference"] });
});

test("the history of the hop has the commit of the other", async () => {
  const repository = committed();
  repository.edit(...CHANNEL);
  repository.commit("onto one channel");
  repository.edit("hops/north.hop", "channel P18 / 55 MHz / 6", "channel P18 / 55 MHz / 11");
  repository.commit("out of reach");
  const found = await repositoryOf(repository.root);
  const from = await revisionOf(found!, "HEAD");
  const entries = await hopHistory(found!, repository.root, "KELD-TARN", from, { today: TODAY, limit: 10 });
  expect(entries.map(({ commit, interferenceChanged }) => [commit?.title, interferenceChanged])).toEqual([
    ["onto one channel", true],
    ["before", false],
  ]);
});
