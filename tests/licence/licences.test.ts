/** Licences: one that has the figures of the design is never told, and each figure that departs is told at its line. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { DesignModel } from "../../language/model/design-model.js";
import { locate } from "../../language/model/locate.js";
import { readSource } from "../../language/model/source-file.js";
import { daysBetween, daysLater } from "../../shared/design/day.js";
import type { Design, Hop } from "../../shared/design/design.js";
import type { Finding } from "../../shared/design/finding.js";
import type { Licence } from "../../shared/design/licence.js";
import type { HopResult } from "../../shared/evaluate/account/result.js";
import { evaluateHop } from "../../shared/evaluate/hop.js";
import { TOLERANCES } from "../../shared/licence/departures.js";
import { type Transmission, transmissionsOf } from "../../shared/licence/transmissions.js";
import { licenceLines } from "../../shared/licence/write.js";
import { Memory } from "../../shared/network/memory.js";
import { EXAMPLE_PREAMBLE, exampleHop } from "../../shared/rules/example-preamble.js";
import { judgeNetwork } from "../../shared/rules/judge-network.js";
import { carrierHops, judgedOnLevelGround } from "../evaluate/carrier-hops.js";
import { direct } from "../geodesy/direct.js";
import { exampleGround } from "../rules/example-design.js";

const TODAY = "2026-06-01";

function licenceOf(sent: Transmission, index: number): Licence {
  return {
    at: index === 0 ? "licence" : `licence#${index}`,
    number: `F-${index}`,
    hop: sent.hop,
    site: sent.site,
    frequencyHz: sent.frequencyHz,
    bandwidthHz: sent.bandwidthHz!,
    emission: sent.emission!,
    polarization: sent.polarization,
    eirpDbm: sent.greatestEirpDbm!,
    antenna: sent.antenna!,
    antennaHeightM: sent.antennaHeightM!,
    position: sent.position!,
    until: "2030-01-01",
  };
}

function designWith(hop: Hop, licences: readonly Licence[]): Design {
  return {
    terrain: [],
    sites: new Map(hop.ends.map(({ site }) => [site.name, site])),
    hops: new Map([[hop.name, hop]]),
    licences,
    licenceTerms: { required: true },
  };
}

function told(hop: Hop, result: HopResult, licences: readonly Licence[]): Finding[] {
  const findings = judgeNetwork(designWith(hop, licences), new Map([[hop.name, result]]), TODAY);
  return findings.filter(({ rule }) => rule.startsWith("licence-"));
}

describe("what the design sends, as a licence", () => {
  test("is told nowhere, over all arrangements and in any order", () => {
    fc.assert(
      fc.property(carrierHops, fc.nat(), ({ hop }, turn) => {
        const { result } = judgedOnLevelGround(hop);
        const all = transmissionsOf(hop, result).map(licenceOf);
        const by = all.length === 0 ? 0 : turn % all.length;
        expect(told(hop, result, [...all.slice(by), ...all.slice(0, by)])).toEqual([]);
      }),
      { numRuns: 100 },
    );
  });

  test("and one left out is told at the end that sends, once", () => {
    fc.assert(
      fc.property(carrierHops, fc.nat(), ({ hop }, pick) => {
        const { result } = judgedOnLevelGround(hop);
        const sent = transmissionsOf(hop, result);
        fc.pre(sent.length > 0);
        const gone = pick % sent.length;
        const findings = told(hop, result, sent.map(licenceOf).toSpliced(gone, 1));
        expect(findings.map(({ rule, severity, at }) => [rule, severity, at])).toEqual([
          ["licence-missing", "error", `hop ${hop.name} / ${sent[gone]!.site}`],
        ]);
      }),
      { numRuns: 100 },
    );
  });
});

/** Another figure than the design has, and the fact that it is told at. */
const CHANGES: Readonly<
  Record<
    string,
    {
      readonly change: (licence: Licence) => Partial<Licence>;
      readonly at: (hop: Hop, site: string) => string;
    }
  >
> = {
  frequency: {
    change: ({ frequencyHz }) => ({ frequencyHz: frequencyHz! + 7e6 }),
    at: (hop) => `hop ${hop.name} / channel`,
  },
  "a frequency just out of tolerance": {
    change: ({ frequencyHz }) => ({ frequencyHz: frequencyHz! - TOLERANCES.frequencyHz - 1 }),
    at: (hop) => `hop ${hop.name} / channel`,
  },
  bandwidth: {
    change: () => ({ bandwidthHz: 28e6 }),
    at: (hop) => `hop ${hop.name} / channel`,
  },
  "bandwidth of the designator": {
    change: () => ({ bandwidthHz: undefined, emission: "54M9D7W" }),
    at: (hop) => `hop ${hop.name} / channel`,
  },
  polarization: {
    change: ({ polarization }) => ({ polarization: polarization === "slant" ? "vertical" : "slant" }),
    at: (hop) => `hop ${hop.name} / polarization`,
  },
  eirp: {
    change: ({ eirpDbm }) => ({ eirpDbm: eirpDbm! - TOLERANCES.eirpDb - 0.01 }),
    at: (hop, site) =>
      hop.ends.find((end) => end.site.name === site)!.transmitPowerDbm === undefined
        ? `hop ${hop.name} / ${hop.modes.length > 1 ? "modes" : "mode"}`
        : `hop ${hop.name} / ${site} / power`,
  },
  antenna: {
    change: () => ({ antenna: "OTHER" }),
    at: (hop, site) => `hop ${hop.name} / ${site} / antenna`,
  },
  height: {
    change: ({ antennaHeightM }) => ({ antennaHeightM: antennaHeightM! + TOLERANCES.heightM + 0.01 }),
    at: (hop, site) => `hop ${hop.name} / ${site} / antenna`,
  },
  position: {
    change: ({ position }) => ({
      position: { ...position!, latitudeDeg: position!.latitudeDeg + 0.0003 },
    }),
    at: (_hop, site) => `site ${site} / at`,
  },
};

test.each(Object.entries(CHANGES))("%s that departs is told once, at its line", (_name, { change, at }) => {
  fc.assert(
    fc.property(carrierHops, fc.nat(1), ({ hop }, which) => {
      const { result } = judgedOnLevelGround(hop);
      const sent = transmissionsOf(hop, result);
      fc.pre(
        sent.length === 2 &&
          sent.every(({ polarization, antennaFact }) => polarization && antennaFact === "antenna"),
      );
      const all = sent.map(licenceOf);
      const licence = all[which]!;
      const findings = told(hop, result, all.with(which, { ...licence, ...change(licence) }));
      expect(findings.map((one) => [one.rule, one.at])).toEqual([["licence-differs", at(hop, licence.site)]]);
      expect(findings[0]!.related!.length).toBe(1);
    }),
    { numRuns: 30 },
  );
});

test("within its tolerance a figure is held", () => {
  fc.assert(
    fc.property(
      carrierHops,
      fc.double({ min: -1, max: 1, noNaN: true }),
      fc.double({ min: 0, max: 360, noNaN: true }),
      ({ hop }, share, bearingDeg) => {
        const { result } = judgedOnLevelGround(hop);
        const all = transmissionsOf(hop, result).map((sent, index): Licence => {
          const licence = licenceOf(sent, index);
          return {
            ...licence,
            frequencyHz: licence.frequencyHz! + share * TOLERANCES.frequencyHz,
            eirpDbm: licence.eirpDbm! + share * (share > 0 ? 20 : 0.999 * TOLERANCES.eirpDb),
            antennaHeightM: licence.antennaHeightM! + share * TOLERANCES.heightM,
            position: direct(licence.position!, bearingDeg, Math.abs(share) * 0.999 * TOLERANCES.positionM),
          };
        });
        expect(told(hop, result, all)).toEqual([]);
      },
    ),
    { numRuns: 50 },
  );
});

/** That a licence of a test says little is told of each, and looked at once. */
const isTold = ({ rule }: Finding) => rule.startsWith("licence-") && rule !== "licence-incomplete";

function judgedText(text: string, today = TODAY) {
  const model = new DesignModel("/d");
  const path = "/d/all.hop";
  model.setFile(readSource(path, `${EXAMPLE_PREAMBLE}\n${text}`));
  const design = model.design();
  const results = new Map(
    [...design.hops.values()].map((hop) => [hop.name, evaluateHop(hop, exampleGround(hop))]),
  );
  const findings = judgeNetwork(design, results, today).filter(isTold);
  const source = model.file(path)!;
  const lineAt = (finding: Finding) => {
    const { start } = locate(finding.at, model)!;
    return source.text
      .slice(source.text.lastIndexOf("\n", start) + 1)
      .split("\n")[0]!
      .trim();
  };
  return { model, design, results, findings, lineAt, problems: model.problemsOf(path) };
}

const LICENSED = (number = '"F-1"') => {
  const { design, results } = judgedText(exampleHop());
  const [hop] = design.hops.values();
  return transmissionsOf(hop!, results.get(hop!.name))
    .map((sent) => licenceLines(sent, number).join("\n"))
    .join("\n");
};

describe("as written", () => {
  test("what the editor writes down reads back, and is told nowhere", () => {
    const { findings, design, problems } = judgedText(`licences required\n${exampleHop()}\n${LICENSED()}`);
    expect(problems).toEqual([]);
    expect(design.licences?.length).toBe(2);
    expect(findings).toEqual([]);
  });

  test.each([
    ["channel P18 / 55 MHz / 4", "channel P18 / 55 MHz / 5", 2],
    ["polarization vertical", "polarization horizontal", 2],
    ["transmits high", "transmits high\n    power 24.5 dBm", 1],
    ["KELD {\n    antenna DISH60-18 at 40 m", "KELD {\n    antenna DISH60-18 at 42 m", 1],
  ])("an edit of %s is told at its line", (before, after, count) => {
    const text = exampleHop();
    expect(text).toContain(before);
    const { findings, lineAt } = judgedText(`${text.replace(before, after)}\n${LICENSED()}`);
    expect(findings.map(({ rule }) => rule)).toEqual(Array(count).fill("licence-differs"));
    const edited = after.split("\n").at(-1)!.trim();
    for (const finding of findings) expect(lineAt(finding)).toBe(edited);
  });

  test("a number that is still to be filled in is told, and what was granted counts", () => {
    const { findings, problems } = judgedText(`licences required\n${exampleHop()}\n${LICENSED("?")}`);
    expect(findings).toEqual([]);
    expect(problems.map(({ rule }) => rule)).toEqual(["unfinished", "unfinished"]);
  });

  test("a hop that goes leaves its licences, and they are told", () => {
    const { findings, problems } = judgedText(LICENSED());
    expect(problems).toEqual([]);
    expect(findings.map(({ rule }) => rule)).toEqual(["licence-unused", "licence-unused"]);
    expect(findings[0]!.message).toContain("a hop that the design does not have");
  });

  test("a hop that is taken down, one that is to come, one that is not finished", () => {
    const view = (state: string, on: string) => {
      const { model } = judgedText(`${exampleHop({ more: state })}\n${LICENSED()}`);
      model.setView({ on });
      return judgeNetwork(model.design(), new Map(), TODAY)
        .filter(isTold)
        .map(({ message }) => message);
    };
    expect(view("state removed 2026-05-01", TODAY)).toEqual([
      "licence F-1 is for KELD-TARN, which is taken down on 2026-05-01",
      "licence F-1 is for KELD-TARN, which is taken down on 2026-05-01",
    ]);
    expect(view("state planned 2027-03-01", TODAY)).toEqual([]);
    expect(judgedText(`hop KELD-TARN {\n  KELD {}\n}\n${LICENSED()}`).findings).toEqual([]);
  });

  test("a site that is no end, a licence too many", () => {
    const more =
      'licence "F-9" of KELD-TARN from MOSS {\n}\nlicence "F-8" of KELD-TARN from TARN {\n  frequency 17.7 GHz\n}';
    const { findings } = judgedText(`${exampleHop()}\n${LICENSED()}\n${more}`);
    expect(findings.map(({ message }) => message)).toEqual([
      "licence F-9 is from MOSS, which is no end of KELD-TARN; its ends are KELD and TARN",
      "licence F-8 grants TARN 17.7 GHz, and KELD-TARN sends nothing there that is not licensed already",
    ]);
  });

  test("figures that cannot be read are told where they stand, and the rest is held", () => {
    const { findings, problems } = judgedText(
      `${exampleHop()}\nlicence "F-1" of KELD-TARN from KELD {\n  frequency 18.93\n  polarization sideways\n  height 30 m\n}`,
    );
    expect(problems.map(({ rule }) => rule).sort()).toEqual(["unit-missing", "unknown-choice"]);
    expect(findings.map(({ message }) => message)).toEqual([
      "KELD has height 40.0 m; licence F-1 grants 30.0 m",
    ]);
  });

  test("one that says no frequency is told, and comes behind one that does", () => {
    const { design, results } = judgedText(
      `${exampleHop()}\nlicence "A" of KELD-TARN from KELD {\n}\nlicence "B" of KELD-TARN from KELD {\n  frequency 18.93 GHz\n  height 30 m\n}`,
    );
    const findings = judgeNetwork(design, results, TODAY).filter(({ rule }) => rule.startsWith("licence-"));
    expect(findings.map(({ rule, message }) => `${rule}: ${message}`)).toEqual([
      "licence-unused: licence A grants KELD a transmission, and KELD-TARN sends nothing there that is not licensed already",
      "licence-incomplete: licence A states no frequency: it is held against KELD-TARN whatever KELD sends",
      "licence-differs: KELD has height 40.0 m; licence B grants 30.0 m",
    ]);
  });

  test("a design without licences hears nothing, whatever is built", () => {
    expect(judgedText(exampleHop({ more: "state built" })).findings).toEqual([]);
  });

  test("a hop stated as built is told once the design states any; required, every hop but planned ones", () => {
    const other = exampleHop({ more: "state built" }).replace("hop KELD-TARN", "hop SECOND");
    const rules = (text: string) =>
      judgedText(text).findings.map(({ rule, severity }) => `${rule} ${severity}`);
    expect(rules(`${exampleHop()}\n${LICENSED()}\n${other}`)).toEqual(
      Array(2).fill("licence-missing warning"),
    );
    expect(
      rules(`${exampleHop()}\n${LICENSED()}\n${exampleHop().replace("hop KELD-TARN", "hop SECOND")}`),
    ).toEqual([]);
    expect(rules(`licences required\n${exampleHop({ more: "state planned" })}`)).toEqual([]);
    expect(rules(`licences required\n${exampleHop()}`)).toEqual(Array(2).fill("licence-missing error"));
  });
});

describe("days", () => {
  const dated = (days: string, terms = "") =>
    `${terms}\n${exampleHop()}\nlicence "F-1" of KELD-TARN from KELD {\n  ${days}\n}`;
  const told = (text: string, today = TODAY) =>
    judgedText(text, today).findings.map(({ rule, message }) => `${rule}: ${message}`);

  test("ended, ending, not yet begun, the wrong way round", () => {
    expect(told(dated("until 2026-06-01"))).toEqual([
      "licence-expires: licence F-1 for KELD of KELD-TARN ends on 2026-06-01, within 90 days",
    ]);
    expect(told(dated("until 2026-05-31"))).toEqual([
      "licence-expired: licence F-1 for KELD of KELD-TARN ended on 2026-05-31",
    ]);
    expect(told(dated("until 2026-08-30")).length).toBe(1);
    expect(told(dated("until 2026-08-31"))).toEqual([]);
    expect(told(dated("until 2026-08-31", "licences stated notice 91 d")).length).toBe(1);
    expect(told(dated("until 2026-06-30", "licences stated notice 10 d"))).toEqual([]);
    expect(told(dated("since 2026-07-01"))[0]).toContain("begins on 2026-07-01");
    expect(told(dated("since 2026-07-01\n  until 2026-06-15"))[0]).toContain("before it begins");
  });

  test("an amended licence takes the place of the old one on its first day", () => {
    const text = (
      height: number,
    ) => `${exampleHop().replace("antenna DISH60-18 at 40 m", `antenna DISH60-18 at ${height} m`)}
licence "OLD" of KELD-TARN from KELD {\n  height 40 m\n  until 2026-06-30\n}
licence "NEW" of KELD-TARN from KELD {\n  height 50 m\n  since 2026-07-01\n  until 2036-06-30\n}`;
    expect(told(text(40))).toEqual([]);
    expect(told(text(50))[0]).toContain("licence OLD grants 40.0 m");
    expect(told(text(50), "2026-07-01")).toEqual([]);
    expect(told(text(40), "2026-07-01")[0]).toContain("licence NEW grants 50.0 m");
  });

  test("a licence that ends is followed by the next of its own end and hop alone, from the day behind it", () => {
    const followed = (by: string, days: string) =>
      told(
        `${exampleHop()}\n${exampleHop().replace("hop KELD-TARN", "hop SECOND")}
licence "OLD" of KELD-TARN from KELD {\n  until 2026-06-30\n}
licence "NEXT" of ${by} {\n  ${days}\n}`,
      ).every((one) => !one.startsWith("licence-expires: licence OLD"));
    expect(followed("KELD-TARN from KELD", "since 2026-07-01")).toBe(true);
    expect(followed("KELD-TARN from KELD", "since 2026-07-02")).toBe(false);
    expect(followed("KELD-TARN from KELD", "since 2026-07-01\n  until 2026-06-30")).toBe(false);
    expect(followed("KELD-TARN from TARN", "since 2026-07-01")).toBe(false);
    expect(followed("SECOND from KELD", "since 2026-07-01")).toBe(false);
  });

  test("from one day to another, over leap years", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 3_000_000 }),
        fc.integer({ min: 0, max: 100_000 }),
        (from, more) => {
          const day = (n: number) => new Date(Date.UTC(1, 0, 1) + n * 86_400_000);
          const iso = (n: number) => {
            const date = new Date(0);
            date.setUTCFullYear(1, 0, 1 + n);
            return date.toISOString().slice(0, 10);
          };
          fc.pre(day(from + more).getUTCFullYear() < 9000);
          expect(daysBetween(iso(from), iso(from + more))).toBe(more);
          expect(daysLater(iso(from), more)).toBe(iso(from + more));
        },
      ),
    );
  });
});

test("with a memory the same is told as without", () => {
  fc.assert(
    fc.property(
      carrierHops,
      fc.array(fc.constantFrom("height", "eirp", "antenna", "until"), { maxLength: 6 }),
      ({ hop }, edits) => {
        const { result } = judgedOnLevelGround(hop);
        const results = new Map([[hop.name, result]]);
        const memory = new Memory();
        let all = transmissionsOf(hop, result).map(licenceOf);
        for (const edit of ["", ...edits]) {
          if (edit === "until") all = all.map((one) => ({ ...one, until: "2026-06-15" }));
          else if (edit !== "") all = all.map((one) => ({ ...one, ...CHANGES[edit]!.change(one) }));
          const design = designWith(hop, all);
          expect(judgeNetwork(design, results, TODAY, { memory })).toEqual(
            judgeNetwork(design, results, TODAY),
          );
        }
      },
    ),
    { numRuns: 20 },
  );
});
