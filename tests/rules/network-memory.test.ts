/** A judgement that remembers says what one that begins anew says, whatever was edited before. */
import fc from "fast-check";
import { expect, test } from "vitest";
import { DesignModel } from "../../language/model/design-model.js";
import { readSource } from "../../language/model/source-file.js";
import type { Design, Hop as DesignHop, Site } from "../../shared/design/design.js";
import type { SiteEquipment } from "../../shared/design/equipment.js";
import type { HopResult } from "../../shared/evaluate/account/result.js";
import { evaluateHop } from "../../shared/evaluate/hop.js";
import type { InterferenceAt } from "../../shared/interference/receiver-result.js";
import { type HopInNetwork, hopsInNetwork } from "../../shared/network/in-network.js";
import { Memory } from "../../shared/network/memory.js";
import { type SiteInNetwork, sitesInNetwork } from "../../shared/network/sites.js";
import { EXAMPLE_ENTRIES } from "../../shared/rules/equipment/example-equipment.js";
import { EXAMPLE_PREAMBLE } from "../../shared/rules/example-preamble.js";
import { judgeNetwork } from "../../shared/rules/judge-network.js";
import { end, makeHop } from "../evaluate/builders.js";
import { exampleGround } from "./example-design.js";

const TODAY = "2026-06-01";
const SITES = ["KELD", "TARN", "MOSS", "FELL"];

interface Hop {
  readonly from: string;
  readonly to: string;
  readonly heightM: number;
  readonly half: "high" | "low";
  readonly more: string;
}

interface Text {
  readonly hops: readonly Hop[];
  readonly indoor: readonly string[];
  readonly masts: readonly number[];
}

const hop: fc.Arbitrary<Hop> = fc.record({
  from: fc.constantFrom(...SITES),
  to: fc.constantFrom(...SITES),
  heightM: fc.constantFrom(20, 40, 41),
  half: fc.constantFrom("high", "low"),
  more: fc.constantFrom(
    "",
    "polarization vertical",
    "pair H0",
    "arrangement dual-band low\n  pair H1",
    "arrangement dual-band high\n  pair H0",
    "objective trunk",
    "accept site-high-and-low",
  ),
});
const text: fc.Arbitrary<Text> = fc.record({
  hops: fc.array(hop, { minLength: 1, maxLength: 4 }),
  indoor: fc.array(
    fc.constantFrom("", "chassis HEDGE as A { card FERN 2 }", "wind 26 m/s over country; wind-limit 0.2 kN"),
    {
      minLength: 2,
      maxLength: 2,
    },
  ),
  masts: fc.array(fc.constantFrom(30, 60, 160), { minLength: 2, maxLength: 2 }),
});

function modelWith(model: DesignModel, { hops, indoor, masts }: Text): DesignModel {
  const sites = ["MOSS", "FELL"].map(
    (name, i) =>
      `site ${name} {\n  at 47.4${8 + i} -30.4${8 - i}\n  structure mast ${masts[i]} m\n  ${indoor[i]!.replaceAll("; ", "\n  ")}\n}\n`,
  );
  const other = (half: string) => (half === "high" ? "low" : "high");
  const lines = hops.map(
    ({ from, to, heightM, half, more }, i) =>
      `hop H${i} {\n  radio R18\n  mode 55 MHz 128QAM\n  channel F.595 / 55 MHz / 3\n  ${more}\n  ${from} {\n    antenna DISH60-18 at ${heightM} m\n    transmits ${half}\n  }\n  ${to} {\n    antenna DISH60-18 at 40 m\n    transmits ${other(half)}\n  }\n}\n`,
  );
  const files = {
    catalogue: [...EXAMPLE_ENTRIES, EXAMPLE_PREAMBLE].join("\n"),
    sites: sites.join("\n"),
    hops: lines.join("\n"),
  };
  for (const [name, content] of Object.entries(files)) {
    const path = `/memory/${name}.hop`;
    if (model.file(path)?.text !== content) model.setFile(readSource(path, content));
  }
  return model;
}

test("after any edits a judgement that remembers says what one without a memory says", () => {
  fc.assert(
    fc.property(fc.array(text, { minLength: 2, maxLength: 4 }), (edits) => {
      const model = new DesignModel("/memory");
      const memory = new Memory();
      const results = new Map<string, HopResult>();
      const evaluated = new Map<string, unknown>();
      for (const edit of edits) {
        const design = modelWith(model, edit).design();
        for (const name of [...results.keys()]) if (!design.hops.has(name)) results.delete(name);
        for (const [name, one] of design.hops) {
          if (evaluated.get(name) !== one || !results.has(name))
            results.set(name, evaluateHop(one, exampleGround(one)));
          evaluated.set(name, one);
        }
        const remembered = judgeNetwork(design, results, TODAY, { memory });
        const fresh = modelWith(new DesignModel("/memory"), edit).design();
        expect(design).toEqual(fresh);
        expect(remembered).toEqual(judgeNetwork(fresh, results, TODAY));
      }
    }),
    { numRuns: 150 },
  );
});

test("a hop is made anew in its network when a band of its pair changes, and not by a third", () => {
  const edit = (highM: number, thirdM: number): Text => ({
    hops: [
      { from: "KELD", to: "TARN", heightM: 40, half: "high", more: "arrangement dual-band low\n  pair H1" },
      {
        from: "KELD",
        to: "TARN",
        heightM: highM,
        half: "high",
        more: "arrangement dual-band high\n  pair H0",
      },
      { from: "MOSS", to: "FELL", heightM: thirdM, half: "high", more: "" },
    ],
    indoor: ["", ""],
    masts: [60, 60],
  });
  const model = new DesignModel("/memory");
  const memory = new Memory();
  const after = (text: Text) => [...hopsInNetwork(modelWith(model, text).design(), new Map(), memory)];
  let last = after(edit(40, 40));
  const madeAnew = (text: Text) => {
    const before = last;
    last = after(text);
    return last.map((one, index) => one !== before[index]);
  };
  expect(last.map(({ pair }) => pair?.other.name)).toEqual(["H1", "H0", undefined]);
  expect(madeAnew(edit(40, 41))).toEqual([false, false, true]);
  expect(madeAnew(edit(41, 41))).toEqual([true, true, false]);
});

test("an edit of one hop makes its two sites anew, and no other", () => {
  const edit = (heightM: number): Text => ({
    hops: [
      { from: "KELD", to: "TARN", heightM, half: "high", more: "" },
      { from: "MOSS", to: "FELL", heightM: 40, half: "high", more: "" },
    ],
    indoor: ["", ""],
    masts: [60, 60],
  });
  const model = new DesignModel("/memory");
  const memory = new Memory();
  const before = sitesInNetwork(modelWith(model, edit(40)).design(), new Map(), memory);
  const after = sitesInNetwork(modelWith(model, edit(41)).design(), new Map(), memory);
  const same = [...after].map(([name, site]) => [name, before.get(name) === site]);
  expect(same).toEqual([
    ["KELD", false],
    ["TARN", false],
    ["MOSS", true],
    ["FELL", true],
  ]);
});

/** Which hops were asked for by name. */
class Asked extends Map<string, DesignHop> {
  readonly names = new Set<string>();
  override get(name: string): DesignHop | undefined {
    this.names.add(name);
    return super.get(name);
  }
}

test("an edit of one hop, or another result of it, asks for the hops at its two sites and no other", () => {
  // A chain of sites S0, S1, ... with hops H0 from S0 to S1 and so on; H7 and H8 name each other.
  const sites = new Map(Array.from({ length: 10 }, (_, i): [string, Site] => [`S${i}`, { name: `S${i}` }]));
  const hopAt = (i: number, title?: string): DesignHop =>
    makeHop({
      name: `H${i}`,
      title,
      pairedWith: i === 7 ? "H8" : i === 8 ? "H7" : undefined,
      ends: [end(sites.get(`S${i}`)!, "high"), end(sites.get(`S${i + 1}`)!, "low")],
    });
  let hops = new Map(Array.from({ length: 9 }, (_, i): [string, DesignHop] => [`H${i}`, hopAt(i)]));
  const results = new Map<string, HopResult>();
  const memory = new Memory();
  const askedFor = () => {
    const asked = new Asked(hops);
    sitesInNetwork({ terrain: [], hops: asked, sites, equipment: undefined }, results, memory);
    return [...asked.names].toSorted();
  };
  expect(askedFor()).toHaveLength(9);
  expect(askedFor()).toEqual([]);
  hops = new Map(hops).set("H3", hopAt(3, "raised"));
  expect(askedFor()).toEqual(["H2", "H3", "H4"]);
  results.set("H0", { hop: "H0" } as HopResult);
  expect(askedFor()).toEqual(["H0", "H1"]);
  // The other band of a pair is seen from the sites of the one that names it.
  hops = new Map(hops).set("H8", hopAt(8, "raised"));
  expect(askedFor()).toEqual(["H6", "H7", "H8"]);
});

/** What one edit does to a network of plain data; the thing is a number among those that there are. */
type Edit = readonly [
  "hop" | "result" | "pair" | "move" | "site" | "equipment" | "bare" | "add" | "remove" | "order" | "none",
  number,
];

const edits: fc.Arbitrary<Edit[]> = fc.array(
  fc.tuple(
    fc.constantFrom<Edit[0]>(
      "hop",
      "result",
      "pair",
      "move",
      "site",
      "equipment",
      "bare",
      "add",
      "remove",
      "order",
      "none",
    ),
    fc.nat({ max: 11 }),
  ),
  { minLength: 1, maxLength: 12 },
);

/** A network that is edited as a model edits it: what is not touched is the same object. */
class Edited {
  private count = 0;
  private sites = new Map(SITES.map((name): [string, Site] => [name, { name }]));
  private hops = new Map<string, DesignHop>();
  private equipment: Map<string, SiteEquipment> | undefined;
  readonly results = new Map<string, HopResult>();

  constructor() {
    for (const n of [0, 1, 2]) this.edit(["add", n]);
  }

  edit([what, n]: Edit): void {
    const title = String(++this.count);
    const names = [...this.hops.keys()];
    const name = names[n % Math.max(1, names.length)];
    const hop = name === undefined ? undefined : this.hops.get(name);
    const place = SITES[n % SITES.length]!;
    const put = (more: Partial<DesignHop>) => hop && this.hops.set(hop.name, { ...hop, ...more });
    this.hops = new Map(this.hops);
    if (what === "hop") put({ title });
    else if (what === "result" && name) this.results.set(name, { hop: title } as HopResult);
    else if (what === "pair") put({ pairedWith: n > 8 ? undefined : `H${n % 4}` });
    else if (what === "move") put({ ends: this.ends(n + 1) });
    else if (what === "site") {
      this.sites = new Map(this.sites).set(place, { name: place, title });
      for (const one of this.hops.values())
        if (one.ends.some(({ site }) => site.name === place))
          this.hops.set(one.name, {
            ...one,
            ends: one.ends.map((end) => ({
              ...end,
              site: this.sites.get(end.site.name)!,
            })) as unknown as DesignHop["ends"],
          });
    } else if (what === "equipment")
      this.equipment = new Map(this.equipment).set(place, standsAt(place, this.count));
    else if (what === "bare") {
      this.equipment = new Map(this.equipment);
      this.equipment.delete(place);
      if (this.equipment.size === 0) this.equipment = undefined;
    } else if (what === "add") {
      const added = `H${n % 4}`;
      if (!this.hops.has(added)) this.hops.set(added, makeHop({ name: added, ends: this.ends(n) }));
      this.results.set(added, { hop: title } as HopResult);
    } else if (what === "remove" && name) {
      this.hops.delete(name);
      this.results.delete(name);
    } else if (what === "order") this.hops = new Map([...this.hops].reverse());
  }

  design(): Design {
    const { hops, sites, equipment } = this;
    return { terrain: [], hops, sites, equipment };
  }

  private ends(n: number): DesignHop["ends"] {
    const at = (i: number) => end(this.sites.get(SITES[i % SITES.length]!)!, i % 2 ? "high" : "low");
    return [at(n), at(n + 1 + (n % 3))];
  }
}

function standsAt(site: string, rackUnits: number): SiteEquipment {
  return { site, rackUnits, chassis: [], alarms: [], services: [] } as unknown as SiteEquipment;
}

test("sites that are remembered are those that are put together anew, the same object where nothing of them changed", () => {
  let [same, others] = [0, 0];
  fc.assert(
    fc.property(fc.array(edits, { minLength: 1, maxLength: 5 }), (rounds) => {
      const network = new Edited();
      const memory = new Memory();
      let before: ReadonlyMap<string, SiteInNetwork> = new Map();
      for (const round of rounds) {
        for (const edit of round) network.edit(edit);
        const sites = sitesInNetwork(network.design(), network.results, memory);
        const fresh = sitesInNetwork(network.design(), network.results, new Memory());
        expect(new Map(sites)).toEqual(new Map(fresh));
        expect([...sites.keys()].toSorted()).toEqual([...fresh.keys()].toSorted());
        for (const [name, { plan, results, pairs }] of fresh) {
          const [is, was] = [sites.get(name)!, before.get(name)];
          expect(is.plan, name).toBe(plan);
          const things = [plan, ...results, ...pairs];
          const known = was && [was.plan, ...was.results, ...was.pairs];
          const isSame = known?.length === things.length && things.every((one, i) => one === known[i]);
          expect(is === was, name).toBe(isSame);
          if (isSame) same++;
          else others++;
        }
        before = sites;
      }
    }),
    { numRuns: 300 },
  );
  expect(Math.min(same, others)).toBeGreaterThan(100);
});

test("hops in their network that are remembered are those that are made anew, the same object where nothing of them changed", () => {
  let [same, others] = [0, 0];
  const heardAnew = fc.array(fc.nat({ max: 3 }), { maxLength: 2 });
  fc.assert(
    fc.property(fc.array(fc.tuple(edits, heardAnew), { minLength: 1, maxLength: 5 }), (rounds) => {
      const network = new Edited();
      const memory = new Memory();
      const heard = new Map<string, readonly InterferenceAt[]>();
      const interference = (name: string) => heard.get(name) ?? NOTHING_HEARD;
      let before: readonly HopInNetwork[] = [];
      for (const [round, anew] of rounds) {
        for (const edit of round) network.edit(edit);
        for (const n of anew) heard.set(`H${n}`, []);
        const of = (remembering: Memory) =>
          hopsInNetwork(network.design(), network.results, remembering, interference);
        const [hops, fresh] = [of(memory), of(new Memory())];
        expect(hops.map(thingsOf)).toEqual(fresh.map(thingsOf));
        for (const [place, one] of fresh.entries()) {
          const [is, was] = [hops[place]!, before.find(({ hop: { name } }) => name === one.hop.name)];
          const things = thingsOf(one);
          expect(
            thingsOf(is).every((thing, i) => thing === things[i]),
            one.hop.name,
          ).toBe(true);
          if (was === undefined) continue;
          const isSame = thingsOf(was).every((thing, i) => thing === things[i]);
          expect(is === was, one.hop.name).toBe(isSame);
          if (isSame) same++;
          else others++;
        }
        before = hops;
      }
    }),
    { numRuns: 300 },
  );
  expect(Math.min(same, others)).toBeGreaterThan(100);
});

const NOTHING_HEARD: readonly InterferenceAt[] = [];

/** What one of them rests on. */
function thingsOf({ hop, result, interference, pair }: HopInNetwork): readonly unknown[] {
  return [hop, result, interference, pair?.other, pair?.otherResult];
}
