import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type LicenceChange, licenceChanges } from "../../shared/compare/licences.js";
import type { Hop, HopEnd } from "../../shared/design/design.js";
import { dbm, frequency } from "../../shared/format/numbers.js";
import { printMarkdown } from "../../shared/report/document/markdown.js";
import { hopPage } from "../../shared/report/pages/hop-page.js";
import { ANTENNA, makeHop, QAM128, QPSK } from "../evaluate/builders.js";
import { carrierHops, judgedOnLevelGround, onChannels } from "../evaluate/carrier-hops.js";

const LICENSED = "greatest EIRP";

function licences(was: Hop | undefined, is: Hop | undefined): LicenceChange[] {
  const [before, now] = [was, is].map((hop) => hop && judgedOnLevelGround(hop));
  return licenceChanges(before, now, (site) => site);
}

function withPower(hop: Hop, moreDb: number): Hop {
  const at = (end: HopEnd): HopEnd => ({
    ...end,
    transmitPowerDbm: end.transmitPowerDbm === undefined ? undefined : end.transmitPowerDbm + moreDb,
  });
  const modes = hop.modes.map((mode) => ({ ...mode, transmitPowerDbm: mode.transmitPowerDbm! + moreDb }));
  return { ...hop, modes, ends: [at(hop.ends[0]), at(hop.ends[1])] };
}

/** Site, frequency, polarization and licensed EIRP of each carrier, as the page's table has them. */
function pageTells(hop: Hop): string[] {
  const [page] = printMarkdown(
    hopPage({ ...judgedOnLevelGround(hop), findings: [], name: "hop", colophon: "" }),
  );
  const lines = page!.text.split("\n");
  return hop.ends.flatMap(({ site }) => {
    const start = lines.findIndex((line) => line.includes(`Carriers from ${site.name} to`));
    if (start < 0) return [];
    const rows = lines.slice(start + 1);
    const head = rows.findIndex((line) => line.startsWith("|"));
    const cells = (line: string) =>
      line
        .split("|")
        .slice(1, -1)
        .map((cell) => cell.trim());
    const columns = cells(rows[head]!);
    const at = (title: RegExp) => columns.findIndex((column) => title.test(column));
    const end = rows.findIndex((line, index) => index > head && !line.startsWith("|"));
    return rows
      .slice(head + 2, end)
      .map(cells)
      .filter(([unit]) => !unit!.includes("muted"))
      .map((row) =>
        [site.name, row[at(/^Transmits/)], row[at(/^Polarization/)], row[at(/licensed$/)]].join(" "),
      );
  });
}

/** The same as a comparison has it: with 20 dB more power everything licensed differs. */
function diffTells(hop: Hop): string[] {
  return licences(hop, withPower(hop, 20)).map(({ site, frequencyHz, polarization, figures }) => {
    const eirp = figures.find(({ label }) => label === LICENSED)!.was;
    return [site, frequency(frequencyHz), polarization ?? "not stated", eirp].join(" ");
  });
}

describe("page and comparison say the same of every carrier", () => {
  test("over all arrangements, crossed couplers, both halves", () => {
    fc.assert(
      fc.property(carrierHops, ({ hop }) => {
        const { carriers } = judgedOnLevelGround(hop).result;
        // A hot standby has an EIRP for each unit in the table; the licence is for the greater.
        const oneUnit = carriers.every(({ ends }) => ends.every(({ standby }) => standby === undefined));
        // Two of unstated polarization on a channel are told as "not stated" each, and licensed for both.
        if (carriers.length < 2 || !oneUnit || hop.polarization === undefined) return;
        expect(diffTells(hop).sort()).toEqual(pageTells(hop).sort());
      }),
      { numRuns: 200 },
    );
  });

  test("what is licensed is what the results hold, of every carrier with a frequency", () => {
    fc.assert(
      fc.property(carrierHops, ({ hop }) => {
        const { carriers } = judgedOnLevelGround(hop).result;
        if (hop.polarization === undefined) return;
        const held = carriers.flatMap(({ ends, polarization }) =>
          ends.map(({ site, transmitHz, licensedEirpDbm }) =>
            [site, frequency(transmitHz!), polarization, dbm(licensedEirpDbm!)].join(" "),
          ),
        );
        expect(diffTells(hop).sort()).toEqual(held.sort());
      }),
    );
  });
});

describe("what is no change of a licence, and what is one", () => {
  test("a hop against itself", () => {
    fc.assert(
      fc.property(carrierHops, ({ hop }) => {
        expect(licences(hop, hop)).toEqual([]);
      }),
    );
  });

  test("the order of the lines of channels, but for what a carrier is or has at its frequency", () => {
    fc.assert(
      fc.property(carrierHops, fc.integer({ min: 1, max: 8 }), ({ hop, numbers }, shift) => {
        const turn = shift % Math.max(1, numbers.length);
        const turned = onChannels(hop, [...numbers.slice(turn), ...numbers.slice(0, turn)]);
        const changes = licences(hop, turned);
        const same = (part: (told: string) => string) =>
          JSON.stringify(diffTells(hop).map(part).sort()) ===
          JSON.stringify(diffTells(turned).map(part).sort());
        const labels = changes.flatMap(({ figures }) => figures.map(({ label }) => label));
        // Site, frequency and polarization of every transmission are as they were: only powers may differ.
        if (same((told) => told.replace(/ \S+ dBm$/, ""))) {
          expect(changes.filter(({ action }) => action !== "amend")).toEqual([]);
          expect(labels).not.toContain("frequency");
          expect(labels).not.toContain("polarization");
        }
        if (same((told) => told)) expect(labels).not.toContain(LICENSED);
      }),
    );
    // Equal arms, one polarization: nothing at all.
    const coupler = { name: "H18-E", kind: "hybrid", mainLossDb: 3.5 } as const;
    const [first, second] = makeHop().ends;
    const hop = makeHop({
      arrangement: { name: "2+0 single-polarization" },
      ends: [
        { ...first, coupler },
        { ...second, coupler },
      ],
    });
    expect(licences(onChannels(hop, [4, 6]), onChannels(hop, [6, 4]))).toEqual([]);
  });

  test("seen from the other side, was and is change places", () => {
    fc.assert(
      fc.property(carrierHops, carrierHops, ({ hop }, { hop: other }) => {
        const INVERSE = { license: "cancel", cancel: "license", amend: "amend" } as const;
        const key = (one: object) => JSON.stringify(one);
        const forth = licences(hop, other).map(({ site, action, figures }) => ({ site, action, figures }));
        const back = licences(other, hop).map(({ site, action, figures }) => ({
          site,
          action: INVERSE[action],
          figures: figures.map(({ label, was, is }) => ({ label, was: is, is: was })),
        }));
        expect(back.map(key).sort()).toEqual(forth.map(key).sort());
      }),
    );
  });

  test("two decibels more in the lowest mode: the licence, though the judged mode keeps its power", () => {
    const hop = (powerDbm: number) => makeHop({ modes: [{ ...QPSK, transmitPowerDbm: powerDbm }, QAM128] });
    // 24 dBm and 38.5 dBi, then 26 dBm; 300 Mbit/s are asked, which 128QAM carries with 20 dBm.
    for (const { action, figures } of licences(hop(24), hop(26))) {
      expect(action).toBe("amend");
      expect(figures).toEqual([{ label: LICENSED, was: "62.5 dBm", is: "64.5 dBm" }]);
    }
    expect(licences(hop(24), hop(26))).toHaveLength(2);
    expect(licences(hop(24), hop(24.05))).toEqual([]);
    // The other way round: the judged mode gains, the greatest stays.
    const judged = makeHop({ modes: [QPSK, { ...QAM128, transmitPowerDbm: 22 }] });
    expect(licences(hop(24), judged)[0]!.figures).toEqual([
      { label: "EIRP in the judged mode", was: "58.5 dBm", is: "60.5 dBm" },
    ]);
  });

  test("any change of power, coupler, gain or further loss that moves an EIRP", () => {
    const more = fc.integer({ min: -40, max: 40 }).map((tenth) => tenth / 10);
    fc.assert(
      fc.property(carrierHops, fc.nat(3), fc.nat(1), more, ({ hop }, what, at, changeDb) => {
        if (hop.polarization === undefined) return;
        const changed = changedIn(hop, what, at as 0 | 1, changeDb);
        const [before, now] = [hop, changed].map((one) => judgedOnLevelGround(one).result.carriers);
        const told = licences(hop, changed);
        for (const [index, carrier] of now!.entries()) {
          for (const [side, end] of carrier.ends.entries()) {
            const was = before![index]!.ends[side as 0 | 1];
            const moved = (a = 0, b = 0) => Math.abs(a - b) >= 0.1 + 1e-9;
            const of = told.filter(
              ({ site, frequencyHz }) => site === end.site && frequencyHz === end.transmitHz,
            );
            const figures = of.flatMap((one) => one.figures);
            if (moved(was.licensedEirpDbm, end.licensedEirpDbm))
              expect(figures.map(({ label, is }) => `${label} ${is}`)).toContain(
                `${LICENSED} ${dbm(end.licensedEirpDbm!)}`,
              );
            // Where the licensed one is told too, it stands for both.
            else if (moved(was.eirp?.judgedDbm, end.eirp?.judgedDbm))
              expect(
                figures.some(({ label }) => [LICENSED, "EIRP in the judged mode"].includes(label)),
                `${end.site} ${end.transmitHz}`,
              ).toBe(true);
          }
        }
      }),
      { numRuns: 300 },
    );
  });
});

function changedIn(hop: Hop, what: number, at: 0 | 1, changeDb: number): Hop {
  const end = hop.ends[at];
  const withEnd = (more: Partial<HopEnd>): Hop => {
    const ends = hop.ends.map((one, index) => (index === at ? { ...one, ...more } : one));
    return { ...hop, ends: [ends[0]!, ends[1]!] };
  };
  switch (what) {
    case 0: {
      const [lowest, ...others] = hop.modes;
      return {
        ...hop,
        modes: [{ ...lowest!, transmitPowerDbm: lowest!.transmitPowerDbm! + changeDb }, ...others],
      };
    }
    case 1:
      return withEnd({ coupler: { name: "D", mainLossDb: 2 + Math.abs(changeDb), standbyLossDb: 7 } });
    case 2:
      return withEnd({ antenna: { ...ANTENNA, gain: [{ gainDbi: 38.5 + changeDb }] } });
    default:
      return withEnd({ extraLossDb: (end.extraLossDb ?? 0) + Math.abs(changeDb) });
  }
}
