/** A design on a day is the design of which only the lines were written that stand on that day. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { hoverAt } from "../../language/editor/hover.js";
import { DesignModel } from "../../language/model/design-model.js";
import { readSource } from "../../language/model/source-file.js";
import { dayAfter } from "../../shared/design/day.js";
import { ALL_BUILT, stagesFrom, type View } from "../../shared/design/state.js";
import { EXAMPLE_ENTRIES } from "../../shared/rules/equipment/example-equipment.js";
import { EXAMPLE_PREAMBLE } from "../../shared/rules/example-preamble.js";
import { FILE, modelOf } from "./editor/fixing.js";
import { judge } from "./editor/judged.js";

type Written = { word: "built" | "planned" | "removed"; date?: string; until?: string } | undefined;

const DAYS = ["2026-01-01", "2027-03-01", "2027-06-15", "2028-01-01", "2030-12-31"];
const day = fc.constantFrom(...DAYS);
const state: fc.Arbitrary<Written> = fc.option(
  fc.record(
    {
      word: fc.constantFrom("built" as const, "planned" as const, "removed" as const),
      date: day,
      until: day,
    },
    { requiredKeys: ["word"] },
  ),
  { nil: undefined },
);

/** As the language page says it, written a second time. */
function stands(written: Written, { on, builtOnly }: View): boolean {
  if (written === undefined) return true;
  const { word, date, until } = written;
  if (word === "removed") return date !== undefined && on < date;
  if (word === "planned" && builtOnly) return false;
  if (until !== undefined && on >= until) return false;
  if (date !== undefined) return date <= on;
  return word === "built" || on === ALL_BUILT;
}

const words = (written: Written) =>
  written === undefined
    ? ""
    : ["state", written.word, written.date, written.until && `until ${written.until}`]
        .filter(Boolean)
        .join(" ");

const THINGS = ["site", "hop", "radio", "antenna", "coupler", "feeder", "chassis", "slot", "card"] as const;
const states = fc.record(
  Object.fromEntries(THINGS.map((thing) => [thing, state])) as Record<(typeof THINGS)[number], typeof state>,
);

/** @param view undefined: with its states as a user writes it; else only what stands, without a word of states */
function text(of: Record<(typeof THINGS)[number], Written>, view: View | undefined): string {
  const line = (thing: (typeof THINGS)[number], words_: string) => {
    if (view === undefined) return `${words_} ${words(of[thing])}\n`;
    return stands(of[thing], view) ? `${words_}\n` : "";
  };
  const block = (thing: (typeof THINGS)[number], head: string, body: string) => {
    if (view === undefined) return `${head} {\n${words(of[thing])}\n${body}}\n`;
    return stands(of[thing], view) ? `${head} {\n${body}}\n` : "";
  };
  const site = block(
    "site",
    "site MOSS",
    `at 47.48 -30.48\nstructure mast 60 m\n${block("chassis", "chassis HEDGE as A", `${line("slot", "slot 3 MIST")}${line("card", "card FERN 2")}`)}`,
  );
  // A hop stands when its sites do.
  const hop =
    view !== undefined && !stands(of.site, view)
      ? ""
      : block(
          "hop",
          "hop MOSS-TARN",
          `polarization vertical
${line("radio", "radio R18")}mode 55 MHz 128QAM
MOSS {
${line("antenna", "antenna DISH60-18 at 40 m")}${line("coupler", "coupler H18-U direct")}${line("feeder", "feeder FLEX length 1 m")}transmits high
}
TARN {
antenna DISH60-18 at 40 m
transmits low
}
`,
        );
  return `${EXAMPLE_ENTRIES.join("\n")}\n${EXAMPLE_PREAMBLE}\nfeeder FLEX { kind flexible; loss 1 dB/m at 18.7 GHz }\n${site}${hop}`;
}

/** The resolved design without the states themselves. */
function resolved(model: DesignModel): unknown {
  const strip = (_: string, value: unknown) => {
    if (value instanceof Map) return [...value];
    if (value instanceof Set) return [...value];
    if (value && typeof value === "object" && "state" in value) {
      const { state: _state, stateFromSites: _, ...rest } = value as Record<string, unknown>;
      return rest;
    }
    return value;
  };
  return JSON.parse(JSON.stringify(model.design(), strip));
}

test("in every view, and in whatever order one looks", () => {
  const view = fc.record({
    on: fc.constantFrom(...DAYS, "2026-06-01", "2027-03-02", ALL_BUILT),
    builtOnly: fc.constantFrom(true as const, undefined),
  });
  fc.assert(
    fc.property(states, fc.array(view, { minLength: 1, maxLength: 5 }), (of, views) => {
      const model = modelOf(text(of, undefined));
      for (const one of views) {
        model.setView(one);
        model.design();
        expect(resolved(model)).toEqual(resolved(modelOf(text(of, one))));
      }
    }),
    { numRuns: 300 },
  );
});

test("the days on which something is other than before are all that have to be looked at", () => {
  const spans = fc.array(
    fc.record({ from: fc.constantFrom("", ...DAYS, ALL_BUILT), until: fc.constantFrom(...DAYS, "~") }),
  );
  fc.assert(
    fc.property(spans, day, (all, first) => {
      const stages = stagesFrom(first, all);
      const at = (on: string) => all.map(({ from, until }) => from <= on && on < until);
      for (const on of [...DAYS, ALL_BUILT]) {
        if (on < first) continue;
        const stage = stages.findLast((begin) => begin <= on)!;
        expect(at(on)).toEqual(at(stage));
      }
      expect(stages).toEqual([...new Set(stages)].sort());
    }),
  );
});

describe("what contradicts", () => {
  const told = (lines: string) =>
    modelOf(`${EXAMPLE_PREAMBLE}\n${lines}`)
      .problemsOf(FILE)
      .filter(({ severity }) => severity !== "info")
      .map(({ rule, message }) => `${rule}: ${message}`);
  const hop = (state: string, antenna = "antenna DISH60-18 at 40 m") =>
    `hop KELD-MOSS {\n  ${state}\n  KELD {\n    ${antenna}\n  }\n  MOSS { antenna DISH60-18 at 40 m }\n}\n`;
  const moss = (state: string) => `site MOSS {\n  at 47.48 -30.48\n  ${state}\n}\n`;

  test("a hop before or after its site", () => {
    expect(told(moss("state planned 2027-03-01") + hop("state planned 2027-03-01"))).toEqual([]);
    expect(told(moss("state planned 2027-03-01") + hop(""))).toEqual([]);
    expect(told(moss("state planned 2027-03-01") + hop("state planned 2027-02-28"))).toEqual([
      "state-contradiction: it stands from 2027-02-28 on, its site MOSS from 2027-03-01 on",
    ]);
    expect(told(moss("state removed 2028-01-01") + hop("state built"))).toEqual([
      "state-contradiction: it stands at all times, its site MOSS until 2028-01-01",
    ]);
    expect(told(moss("state removed 2028-01-01") + hop("state built until 2028-01-01"))).toEqual([]);
    expect(told(moss("state planned") + hop("state planned"))).toEqual([]);
  });

  test("a part that never stands, and an end before the beginning", () => {
    expect(
      told(moss("") + hop("state removed 2027-01-01", "antenna DISH60-18 at 40 m state planned 2027-01-01")),
    ).toEqual([
      "state-contradiction: this never stands: it does from 2027-01-01 on, and KELD-MOSS until 2027-01-01",
    ]);
    expect(
      told(moss("") + hop("state removed 2027-01-02", "antenna DISH60-18 at 40 m state planned 2027-01-01")),
    ).toEqual([]);
    expect(told(moss("state built 2027-03-01 until 2027-03-01"))).toEqual([
      "state-contradiction: built 2027-03-01 until 2027-03-01 ends before it has stood a day",
    ]);
    expect(told(moss("state built 2027-03-01 until 2027-03-02"))).toEqual([]);
  });

  test("what is removed has no end", () => {
    expect(told(moss("state removed 2027-01-01 until 2028-01-01"))).toEqual([
      "state-contradiction: what is removed has no until",
    ]);
  });

  test("what replaces another begins when it ends", () => {
    const both = (one: string, other: string) =>
      told(moss("") + hop("", `antenna DISH60-18 at 40 m${one}\n    antenna DISH60-18 at 41 m${other}`));
    expect(both(" state removed 2027-06-01", " state planned 2027-06-01")).toEqual([]);
    expect(both(" state removed 2027-06-02", " state planned 2027-06-01")).toEqual([
      "doubled-fact: antenna is stated twice from 2027-06-01 until 2027-06-02; the first one counts",
    ]);
    expect(both("", " state planned 2027-06-01")).toEqual([
      "doubled-fact: antenna is stated twice from 2027-06-01 on; the first one counts",
    ]);
    expect(both("", "")).toEqual([
      "doubled-fact: antenna is stated twice in this block; the first one counts",
    ]);
  });

  test("one of a dual-band pair without the other", () => {
    const pair = (one: string, other: string) =>
      told(
        `${moss("")}hop A {\n  ${one}\n  pair B\n  KELD { antenna DISH60-18 at 40 m }\n  MOSS { antenna DISH60-18 at 40 m }\n}\nhop B {\n  ${other}\n  pair A\n  KELD { antenna DISH60-18 at 40 m }\n  MOSS { antenna DISH60-18 at 40 m }\n}\n`,
      );
    expect(pair("", "")).toEqual([]);
    expect(pair("state planned 2027-03-01", "state planned 2027-03-01")).toEqual([]);
    expect(pair("", "state planned 2027-03-01")).toEqual([
      "state-contradiction: it stands at all times, the other band B from 2027-03-01 on; for a time it carries alone",
    ]);
  });

  test("a day that is none: the thing stands, and nothing else is said of it", () => {
    for (const [state, message] of [
      ["removed 2027-02-30", "2027-02-30 is not a day of the calendar"],
      ["removed 01.03.2027", "01.03.2027 is not written as dates are here"],
      ["removed 2027-1-1", "2027-1-1 is not written as dates are here"],
      ["planned 2027-03", "2027-03 names no day"],
      ["built 2026-01-01 until 31/12/2027", "31/12/2027 is not written as dates are here"],
    ]) {
      const model = modelOf(`${EXAMPLE_PREAMBLE}\n${moss("")}${hop(`state ${state}`)}`);
      expect(model.problemsOf(FILE).map((one) => one.message)).toEqual([
        `${message}; dates are written year-month-day, for example 2027-05-01`,
      ]);
      for (const on of ["2026-01-01", "2027-06-01", ALL_BUILT]) {
        model.setView({ on });
        expect(model.standsHop("KELD-MOSS")).toBe(true);
      }
    }
  });

  test("of the two ways to read a date both are offered, of one way that one", () => {
    const offered = (date: string) =>
      modelOf(`${EXAMPLE_PREAMBLE}\n${moss(`state planned ${date}`)}`)
        .problemsOf(FILE)
        .flatMap(({ fixes = [] }) => fixes.map(({ newText }) => newText));
    expect(offered("01.03.2027")).toEqual(["2027-03-01"]);
    expect(offered("1/3/2027")).toEqual(["2027-03-01", "2027-01-03"]);
    expect(offered("31/3/2027")).toEqual(["2027-03-31"]);
    expect(offered("2027-3-1")).toEqual(["2027-03-01"]);
    expect(offered("30.02.2027")).toEqual([]);
  });

  test("a plan whose day has passed, and the fix that says that it is built", () => {
    const text = `${EXAMPLE_PREAMBLE}\n${moss("state planned 2027-03-01")}`;
    const model = modelOf(text);
    const late = () => model.problemsOf(FILE).filter(({ rule }) => rule === "state-overdue");
    expect(late()).toEqual([]);
    model.setToday("2027-03-01");
    expect(late()).toEqual([]);
    model.setToday("2027-03-02");
    const [problem, more] = late();
    expect(more).toBeUndefined();
    expect(problem?.message).toBe("MOSS was planned for 2027-03-01, which has passed: is it built?");
    const fix = problem!.fixes![0]!;
    const mended = modelOf(text.slice(0, fix.start) + fix.newText + text.slice(fix.end));
    mended.setToday("2027-03-02");
    expect(mended.problemsOf(FILE)).toEqual([]);
  });

  test("the fix lets the first end", () => {
    const text = `${EXAMPLE_PREAMBLE}\n${moss("")}${hop("", "antenna DISH60-18 at 40 m\n    antenna DISH60-18 at 41 m state planned 2027-06-01")}`;
    const [problem] = modelOf(text).problemsOf(FILE);
    const fix = problem!.fixes![0]!;
    const mended = text.slice(0, fix.start) + fix.newText + text.slice(fix.end);
    expect(mended).toContain("antenna DISH60-18 at 40 m state removed 2027-06-01\n");
    expect(modelOf(mended).problemsOf(FILE)).toEqual([]);
  });
});

test("a date of a site that is moved in another file is told at the hop, and told no more", () => {
  const model = new DesignModel("/d");
  model.setFile(
    readSource(
      "/d/hops.hop",
      `${EXAMPLE_PREAMBLE}\nhop KELD-MOSS {\n  state planned 2027-03-01\n  KELD { antenna DISH60-18 at 40 m }\n  MOSS { antenna DISH60-18 at 40 m }\n}\n`,
    ),
  );
  const rules = () =>
    model.problemsOf("/d/hops.hop").flatMap(({ rule, severity }) => (severity === "error" ? rule : []));
  const site = (state: string) =>
    model.setFile(readSource("/d/moss.hop", `site MOSS {\n  at 47.48 -30.48\n  ${state}\n}\n`));
  site("");
  expect(rules()).toEqual([]);
  site("state planned 2027-03-02");
  expect(rules()).toEqual(["state-contradiction"]);
  site("state planned 2027-03-01");
  expect(rules()).toEqual([]);
});

test("hovering a hop tells its state, and of one that goes where its figures are", () => {
  const of = (state: string) => {
    const text = `${EXAMPLE_PREAMBLE}\nhop KELD-TARN {\n  ${state}\n  KELD { antenna DISH60-18 at 40 m }\n  TARN { antenna DISH60-18 at 40 m }\n}\n`;
    const model = modelOf(text);
    return hoverAt(model, FILE, text.indexOf("KELD-TARN") + 1, judge(model).results)?.markdown;
  };
  expect(of("state planned 2027-03-01")).toContain("**KELD-TARN** (hop, planned 2027-03-01)");
  expect(of("state removed 2027-03-01")).toContain("It is taken down before all that is planned stands");
  expect(of("")).toContain("**KELD-TARN** (hop)");
});

test("the day after is that of the calendar", () => {
  fc.assert(
    fc.property(
      fc.date({ min: new Date("0001-01-01"), max: new Date("9999-12-30"), noInvalidDate: true }),
      (date) => {
        const iso = (of: Date) => of.toISOString().slice(0, 10);
        expect(dayAfter(iso(date))).toBe(iso(new Date(date.getTime() + 86_400_000)));
      },
    ),
  );
});
