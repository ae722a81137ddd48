/** Demands: what a text of them means, whatever of it is wrong and in whatever order it stands. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { formatText } from "../../language/format/format.js";
import { DesignModel } from "../../language/model/design-model.js";
import { readSource } from "../../language/model/source-file.js";
import type { Demand } from "../../shared/design/demand.js";

const FILE = "/design/main.hop";
const SITES = `site KELD { handover }
site TARN { clock-source }
site MOSS {}
site RIDGE {}
hop KELD-TARN { KELD {}; TARN {} }
hop TARN-MOSS { TARN {}; MOSS {} }
`;

function modelOf(text: string): DesignModel {
  const model = new DesignModel("/design");
  model.setFile(readSource(FILE, SITES + text));
  return model;
}

/** What it resolves to, fields that say nothing left out, and what is told. */
function demandOf(lines: string, more = "") {
  const model = modelOf(`${more}\ndemand D {\n${lines}\n}\n`);
  const problems = model.problemsOf(FILE).map(({ rule, message }) => `${rule}: ${message}`);
  return { demand: plain(model.design().demands?.get("D")), problems };
}

function plain(demand: Demand | undefined): object | undefined {
  return demand && JSON.parse(JSON.stringify(demand));
}

const ALL = [
  "from KELD to MOSS",
  "committed 200 Mbit/s",
  "peak 0.5 Gbit/s",
  "E1 4",
  "STM-1 1",
  "tdm-packet 256 B",
  "frame 512 bytes",
  "frame-overhead 8 B",
  "availability 99.95 %",
  "availability-with-equipment 99.9 %",
  "latency 5000 us",
  "priority 2",
  "growth 10 % for 5 years",
  "clock two-feeds",
  "route via KELD-TARN, RIDGE",
  "second-route disjoint structure via RIDGE",
  'accept latency until 2027-05-01 because "until the fibre comes"',
] as const;
const MEANT = {
  name: "D",
  from: "KELD",
  to: { site: "MOSS" },
  committedBps: 200e6,
  peakBps: 500e6,
  e1: 4,
  stm1: 1,
  tdmPacketBytes: 256,
  frameBytes: 512,
  frameOverheadBytes: 8,
  availabilityPercent: 99.95,
  availabilityWithEquipmentPercent: 99.9,
  latencyS: 0.005,
  priority: 2,
  growthPercent: 10,
  growthYears: 5,
  clock: "two-feeds",
  via: [{ hop: "KELD-TARN" }, { site: "RIDGE" }],
  secondRoute: { disjoint: "structure", via: [{ site: "RIDGE" }] },
  accepts: [{ rule: "latency", reason: "until the fibre comes", until: "2027-05-01" }],
};

describe("resolved", () => {
  test("into what it means, names checked, figures in bit/s, bytes, percent, seconds and years", () => {
    expect(demandOf(ALL.join("\n")).demand).toEqual(MEANT);
  });

  test("alike, whatever the order of its facts, and each fact left out is missing alone", () => {
    fc.assert(
      fc.property(fc.shuffledSubarray([...ALL]), (lines) => {
        const { demand } = demandOf(lines.join("\n"));
        const inOrder = ALL.filter((line) => lines.includes(line));
        expect(demand).toEqual(demandOf(inOrder.join("\n")).demand);
        for (const [name, value] of Object.entries(demand!))
          if (name !== "accepts") expect(value).toEqual(MEANT[name as keyof typeof MEANT]);
      }),
    );
  });

  test("with the network's terms and what sites are to traffic beside it", () => {
    const { traffic, trafficAt } = modelOf(
      "traffic { rerouting none; switching 50 ms; hop-latency 0.2 ms; site-latency 20 us; frame 256 B; frame-overhead 4 B; clock-hops 10 }",
    ).design();
    expect(traffic).toEqual({
      rerouting: "none",
      switchingS: 0.05,
      hopLatencyS: 0.0002,
      siteLatencyS: 0.00002,
      frameBytes: 256,
      frameOverheadBytes: 4,
      clockHops: 10,
    });
    expect(trafficAt!.get("KELD")).toMatchObject({ handover: true });
    expect(trafficAt!.get("TARN")).toMatchObject({ clockSource: true });
    expect([...trafficAt!.keys()]).toEqual(["KELD", "TARN"]);
  });

  test("to whichever handover its route reaches first", () => {
    expect(demandOf("from MOSS to handover")).toMatchObject({ demand: { to: "handover" }, problems: [] });
  });

  test("with what `defaults demand` states and it does not", () => {
    const defaults = "defaults demand { latency 9 ms; priority 3; growth 5 % for 2 y }";
    expect(demandOf("from KELD to TARN\nlatency 5 ms", defaults).demand).toMatchObject({
      latencyS: 0.005,
      priority: 3,
      growthPercent: 5,
      growthYears: 2,
    });
  });

  test("names of a list are parted by commas, with blanks or without, or by blanks alone", () => {
    const parts = fc.constantFrom(",", ", ", " ,", " , ", " ", "  ");
    fc.assert(
      fc.property(parts, parts, (one, other) => {
        const { demand, problems } = demandOf(
          `from KELD to MOSS\nroute via KELD-TARN${one}RIDGE${other}TARN`,
        );
        expect(problems).toEqual([]);
        expect(demand).toMatchObject({ via: [{ hop: "KELD-TARN" }, { site: "RIDGE" }, { site: "TARN" }] });
      }),
    );
  });
});

/** Each fact that is wrong, what it costs, and what is told of it. */
const WRONG: readonly [line: string, told: string][] = [
  ["committed 200", "unit-missing: 200 needs a unit; a bit rate is written in bit/s, kbit/s, Mbit/s, Gbit/s"],
  ["latency 5", "unit-missing: 5 needs a unit; a time is written in s, ms, us"],
  ["frame 512", "unit-missing: 512 needs a unit; a frame size is written in B"],
  ["latency 5 km", "wrong-dimension: 5 km is a length, but a time is wanted here: s, ms, us"],
  ["frame 40 B", "value-range: 40 B is not possible; the least is 64 B"],
  ["priority 12", "value-range: 12 is not possible; the most is 9"],
  ["E1 0.5", "value-range: 0.5 is not a whole number"],
  ["growth 10 %", 'missing-value: growth lacks "for" and a duration'],
  ["clock three", "unknown-choice: three is not known here; write one of: one-feed, two-feeds"],
  ["second-route via RIDGE", 'missing-value: second-route lacks "disjoint" and one of hop, site, structure'],
  ["route via KELDTARN", "unknown-name: there is no site or hop KELDTARN; did you mean KELD-TARN?"],
  ["route via RIDGE,, TARN", "missing-value: the name of a site or a hop is missing before this comma"],
  ["route via RIDGE,", "missing-value: the name of a site or a hop is missing behind this comma"],
  ['route via "RIDGE"', 'unexpected-value: via is the name of a site or a hop, not "RIDGE"'],
  ["bandwidth 4 Mbit/s", "unknown-word: bandwidth is not known in a demand; did you mean committed?"],
];

describe("what is wrong", () => {
  test.each(WRONG)("%s costs that fact and no more", (line, told) => {
    const { demand, problems } = demandOf(`from KELD to MOSS\n${line}`);
    expect(problems).toHaveLength(1);
    expect(problems[0]).toContain(told);
    expect(demand).toMatchObject({ from: "KELD", to: { site: "MOSS" } });
  });

  test("a name that nothing bears in a list costs that name", () => {
    expect(demandOf("from KELD to MOSS\nroute via NOWHERE, RIDGE").demand).toMatchObject({
      via: [{ site: "RIDGE" }],
    });
  });

  test("an end that nothing bears, with what is meant", () => {
    const { demand, problems } = demandOf("from KELT to handovr\ncommitted 2 Mbit/s");
    expect(problems).toEqual([
      "unknown-name: there is no site KELT; did you mean KELD?",
      "unknown-name: there is no site handovr; did you mean handover?",
    ]);
    expect(demand).toEqual({ name: "D", committedBps: 2e6, accepts: [] });
  });

  test("a demand to itself", () => {
    const { demand, problems } = demandOf("from KELD to KELD");
    expect(problems).toEqual(["demand-ends: D begins and ends at KELD; a demand joins two sites"]);
    expect(demand).toEqual({ name: "D", from: "KELD", accepts: [] });
  });

  test("a demand without ends is one still to be written", () => {
    expect(demandOf("committed 2 Mbit/s").problems).toEqual([
      "demand-ends: D does not say from where to where",
    ]);
  });

  test("a peak below what is committed", () => {
    const { demand, problems } = demandOf("from KELD to TARN\ncommitted 200 Mbit/s\npeak 100 Mbit/s");
    expect(problems).toEqual([
      "demand-figures: a peak of 100 Mbit/s is below what is committed, 200 Mbit/s; it does not count",
    ]);
    expect(demand).not.toHaveProperty("peakBps");
  });

  test("availability of more causes above that of fewer, and packets of no circuit", () => {
    const { problems } = demandOf(
      "from KELD to TARN\navailability 99.9 %\navailability-with-equipment 99.95 %\ntdm-packet 256 B",
    );
    expect(problems.map((one) => one.split(":")[0])).toEqual(["demand-figures", "demand-figures"]);
  });

  test("a name that is a site and a hop decides nothing", () => {
    const { demand, problems } = demandOf("from KELD to MOSS\nroute via RIDGE, TARN", "hop RIDGE {}");
    expect(problems[0]).toContain("RIDGE is a site and a hop: which of the two is meant cannot be told");
    expect(demand).toMatchObject({ via: [{ site: "TARN" }] });
  });

  test("a site that is called as the word is", () => {
    const { demand, problems } = demandOf("from KELD to handover", "site handover {}");
    expect(problems).toHaveLength(1);
    expect(problems[0]).toContain("a site is called handover too");
    expect(demand).toMatchObject({ to: "handover" });
  });

  test("two demands of one name, two `traffic`", () => {
    const model = modelOf("demand D {}\ndemand D {}\ntraffic {}\ntraffic {}");
    expect(model.problemsOf(FILE).map(({ rule }) => rule)).toEqual(
      expect.arrayContaining(["doubled-name", "doubled-name"]),
    );
  });
});

describe("in time", () => {
  const PLANNED = "site FELL { state planned 2027-03-01 }";

  test("it stands when its sites do, and by its own state", () => {
    const model = modelOf(
      `${PLANNED}\ndemand A { from KELD to FELL }\ndemand B { from KELD to TARN; state removed 2027-01-01 }\ndemand C { from KELD to TARN }`,
    );
    const on = (day: string) => {
      model.setView({ on: day });
      return [...(model.design().demands?.keys() ?? [])];
    };
    expect(on("2026-12-01")).toEqual(["B", "C"]);
    expect(on("2027-02-01")).toEqual(["C"]);
    expect(on("2027-04-01")).toEqual(["A", "C"]);
  });

  test("one that says itself when it stands needs its sites then", () => {
    const { problems } = demandOf("from KELD to FELL\nstate planned 2027-01-01", PLANNED);
    expect(problems).toEqual([
      "state-contradiction: it stands from 2027-01-01 on, its site FELL from 2027-03-01 on",
    ]);
  });
});

test("what is kept up to date edit by edit is what is computed afresh", () => {
  const texts = [
    "demand D { from KELD to FELL; route via FELL-A }",
    "site FELL {}\ndemand D { from KELD to FELL; route via FELL-A }",
    "site FELL {}\nhop FELL-A { FELL {}; KELD {} }\ndemand D { from KELD to FELL; route via FELL-A }",
    "hop FELL-A { TARN {}; KELD {} }\ndemand D { from KELD to FELL; route via FELL-A }\ndefaults demand { latency 4 ms }",
    "site FELL-A {}\nhop FELL-A {}\ndemand D { from KELD to TARN; route via FELL-A }\ntraffic { switching 3 s }",
    "",
  ];
  fc.assert(
    fc.property(fc.array(fc.constantFrom(...texts), { minLength: 1, maxLength: 6 }), (edits) => {
      const model = modelOf("");
      for (const text of edits) {
        model.setFile(readSource(FILE, SITES + text));
        const fresh = modelOf(text);
        expect(model.design().demands).toEqual(fresh.design().demands);
        expect(model.design().traffic).toEqual(fresh.design().traffic);
        expect(model.problemsOf(FILE)).toEqual(fresh.problemsOf(FILE));
      }
    }),
  );
});

describe("laid out", () => {
  test("in the order of the table, with one comma and one blank between names", () => {
    const text = "demand D {\nroute via A,B ,C  D\ncommitted 2Mbit/s\nfrom A to B\n}\n";
    expect(formatText(text)).toEqual({
      ok: true,
      text: "demand D {\n  from A to B\n  committed 2 Mbit/s\n  route via A, B, C, D\n}\n",
    });
  });

  test("it means the same, and is laid out so once and for all, whatever stands in a list", () => {
    const piece = fc.constantFrom(
      "A",
      "B-C",
      ",",
      " ",
      " , ",
      "?",
      '"x"',
      "4",
      "/",
      "via",
      "disjoint",
      "site",
    );
    fc.assert(
      fc.property(
        fc.constantFrom("route via", "second-route disjoint hop via", "route"),
        fc.array(piece),
        (word, pieces) => {
          const text = `demand D {\n  ${word} ${pieces.join("")}\n}\n`;
          const once = formatText(text);
          if (!once.ok) return;
          expect(formatText(once.text)).toEqual(once);
          const said = (written: string) => {
            const { facts, problems } = readSource(FILE, written);
            return [
              facts[0]!.facts.map(({ args }) =>
                args.map(({ spec, value, open }) => [spec.name, value, open]),
              ),
              problems.map(({ rule }) => rule),
            ];
          };
          expect(said(once.text)).toEqual(said(text));
        },
      ),
      { numRuns: 500 },
    );
  });
});
