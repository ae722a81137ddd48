/** What a change does to licences that the design states. */
import { rmSync } from "node:fs";
import { expect, test } from "vitest";
import { licenceChanges } from "../../shared/compare/licences.js";
import type { Hop } from "../../shared/design/design.js";
import type { Licence } from "../../shared/design/licence.js";
import { transmissionsOf } from "../../shared/licence/transmissions.js";
import { EXAMPLE_PREAMBLE, exampleHop } from "../../shared/rules/example-preamble.js";
import { TestRepository } from "../compare/repository.js";
import { makeHop } from "../evaluate/builders.js";
import { judgedOnLevelGround } from "../evaluate/carrier-hops.js";

function granted(hop: Hop): Licence[] {
  return transmissionsOf(hop, judgedOnLevelGround(hop).result).map((sent, index) => ({
    at: `licence#${index}`,
    number: `F-${index}`,
    hop: sent.hop,
    site: sent.site,
    frequencyHz: sent.frequencyHz,
    polarization: sent.polarization,
    eirpDbm: sent.greatestEirpDbm!,
    antennaHeightM: sent.antennaHeightM!,
  }));
}

function told(was: Hop | undefined, is: Hop | undefined, licences: Partial<Record<"was" | "is", Licence[]>>) {
  const [before, now] = [was, is].map((hop) => hop && judgedOnLevelGround(hop));
  const stated = { was: licences.was ?? [], is: licences.is ?? [], day: "2026-06-01" };
  return licenceChanges(before, now, (site) => site, stated).map(({ site, action, licence, figures }) =>
    [site, action, licence, ...figures.map(({ label, was, is }) => `${label} ${was} > ${is}`)].join(" "),
  );
}

const HOP = makeHop();
const POWERED = (moreDb: number): Hop => ({
  ...HOP,
  modes: HOP.modes.map((mode) => ({ ...mode, transmitPowerDbm: mode.transmitPowerDbm! + moreDb })),
});
const RAISED = (height: number): Hop => ({
  ...HOP,
  ends: [{ ...HOP.ends[0], antennaHeightM: height }, HOP.ends[1]],
});

test("less power is within the licence, and without one it was told", () => {
  const all = granted(HOP);
  expect(told(HOP, POWERED(-3), { was: all, is: all })).toEqual([]);
  expect(told(HOP, POWERED(-3), {}).length).toBe(2);
});

test("more power, another height: amended, by what was granted", () => {
  const all = granted(HOP);
  const raised = told(HOP, RAISED(55), { was: all, is: all });
  expect(raised).toEqual([`KELD amend F-0 height ${HOP.ends[0].antennaHeightM!.toFixed(1)} m > 55.0 m`]);
  expect(told(HOP, POWERED(3), { was: all, is: all }).every((one) => /amend F-\d EIRP /.test(one))).toBe(
    true,
  );
});

test("amended in the same change: nothing is to be asked for; nor where it departed before", () => {
  const all = granted(HOP);
  expect(told(HOP, RAISED(55), { was: all, is: granted(RAISED(55)) })).toEqual([]);
  expect(told(RAISED(55), RAISED(55), { was: all, is: all })).toEqual([]);
  expect(told(undefined, HOP, { is: all })).toEqual([]);
});

test("what goes is cancelled by its number, what comes without one is applied for", () => {
  const all = granted(HOP);
  expect(told(HOP, undefined, { was: all }).sort()).toEqual(["KELD cancel F-0", "TARN cancel F-1"]);
  expect(told(undefined, HOP, { is: [] }).map((one) => one.split(" ")[1])).toEqual(["license", "license"]);
});

test("the page of a comparison says which licence was changed", async () => {
  const repository = TestRepository.create();
  try {
    const licence = (number: string, height: number) =>
      `licence "${number}" of KELD-TARN from KELD {\n  frequency 18.93 GHz\n  height ${height} m\n}\n`;
    const text = (a: number, b: number) =>
      `${EXAMPLE_PREAMBLE}\n${exampleHop()}\n${licence("A", a)}\n${licence("B", b)}`;
    repository.write({ "net.hop": text(40, 41) });
    const before = repository.commit("before");
    repository.write({ "net.hop": text(40, 42) });
    const changes = await repository.changes(before, repository.commit("after"));
    const [shared] = changes.shared;
    expect(shared!.entry).toBe('licence "B" of KELD-TARN from KELD');
    expect(changes.shared).toHaveLength(1);
    expect(shared!.decisions.map(({ was, is }) => [was, is])).toEqual([["height 41 m", "height 42 m"]]);
  } finally {
    rmSync(repository.root, { recursive: true, force: true });
  }
});
