/** What is joined to what: two ends to each joint, nothing twice, a way from every unit to its antenna. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { PortType } from "../../shared/design/equipment.js";
import { sitePlans } from "../../shared/equipment/site-plan.js";
import { labelsOf } from "../../shared/equipment/wiring/labels.js";
import { siteWiring } from "../../shared/equipment/wiring/site-wiring.js";
import {
  assignPorts,
  serves,
  type TrafficNeed,
  type TrafficPort,
} from "../../shared/equipment/wiring/traffic-ports.js";
import type { Wiring } from "../../shared/equipment/wiring/wiring.js";
import { EXAMPLE_ENTRIES } from "../../shared/rules/equipment/example-equipment.js";
import { CASES, CATALOGUE, textOf } from "./arrangement-cases.js";
import { designOf } from "./designs.js";
import { wiringFaults } from "./wiring-faults.js";

function wiringsOf(text: string): ReadonlyMap<string, Wiring> {
  const plans = sitePlans(designOf(text));
  return new Map([...plans].map(([name, plan]) => [name, siteWiring(plan)]));
}

/** Identifiers of parts that a walk from a part reaches towards the antenna. */
function reachedFrom({ joints, parts }: Wiring, part: string): string[] {
  const reached = [part];
  for (const at of reached)
    for (const { ends, carries } of joints)
      if (ends[0].part === at && carries.kind === "hop" && !reached.includes(ends[1].part))
        reached.push(ends[1].part);
  return reached.map((id) => parts.get(id)!.kind);
}

describe("each arrangement", () => {
  test.each(CASES.map((one, index) => [`${one.arrangement} (${index})`, one] as const))(
    "%s",
    (_name, one) => {
      const count = (pieces: number | undefined) => pieces ?? 0;
      let [units, antennas, couplers, guides] = [0, 0, 0, 0];
      for (const wiring of wiringsOf(textOf(one)).values()) {
        expect(wiringFaults(wiring)).toEqual([]);
        const kinds = [...wiring.parts.values()].map(({ kind }) => kind);
        units += kinds.filter((kind) => kind === "unit").length;
        antennas += kinds.filter((kind) => kind === "antenna").length;
        couplers += kinds.filter((kind) => kind === "coupler").length;
        guides += wiring.joints.filter(({ by }) => by.kind === "waveguide" && by.feeder !== undefined).length;
        for (const { id, kind } of wiring.parts.values())
          if (kind === "unit") expect(reachedFrom(wiring, id), id).toContain("antenna");
        // No indoor unit is stated: what lacks is its ports, and nothing else.
        expect(
          wiring.loose
            .map(({ lacks }) => lacks)
            .filter((lacks) => !/indoor unit|handed over|traffic port/.test(lacks)),
        ).toEqual([]);
      }
      // Counted by hand beside each case.
      const { unit, antenna, coupler, feeder } = one.parts;
      expect([units, antennas, couplers, guides]).toEqual([unit, antenna, coupler, feeder].map(count));
    },
  );
});

const SITE = `${EXAMPLE_ENTRIES.join("\n")}
cable COAX-10 { kind coaxial }
site MOSS {
  at 47.48 -30.48
  structure mast 60 m
  chassis HEDGE as A {
    slot 1 HEATH
    slot 6 EMBER
    slot 7 EMBER
    card SQUALL
    card CLOVER
    card FERN
    card LICHEN
  }
  service "mill" 3 E1-75
  service "harbour" 2 GE
  alarm 2 "door" open
}
hop MOSS-TARN {
  channel P18 / 55 MHz / 4
  polarization vertical
  arrangement 1+1 hot-standby
  radio R18
  mode 55 MHz 128QAM
  MOSS { antenna DISH60-18 at 40 m; coupler H18-U direct; transmits high; cable COAX-10 length 50 m }
  TARN { antenna DISH60-18 at 40 m; coupler H18-U direct; transmits low; cable COAX-10 length 50 m }
}`;

test("a site from what is handed over to the antenna, both ends of every joint named", () => {
  const wiring = wiringsOf(SITE).get("MOSS")!;
  expect(wiringFaults(wiring)).toEqual([]);
  expect(wiring.loose).toEqual([]);
  const joined = (kind: string) =>
    wiring.joints
      .filter(({ by }) => by.kind === kind)
      .map(({ ends: [from, to] }) => `${from.part}: ${from.port} - ${to.part}: ${to.port}`);
  expect(joined("fuse")).toEqual(["plant: A 1 - card A/6: supply", "plant: B 1 - card A/7: supply"]);
  expect(joined("flange")).toEqual(
    [
      "unit MOSS-TARN main: antenna - coupler MOSS-TARN coupler: main arm",
      "unit MOSS-TARN standby: antenna - coupler MOSS-TARN coupler: standby arm",
      "coupler MOSS-TARN coupler: antenna - antenna MOSS-TARN antenna: vertical",
    ].map((line) => line.replace("antenna: vertical", "antenna: port")),
  );
  expect(joined("cable")).toHaveLength(2);
  // The contact has the input that it states; services have a port each.
  expect(joined("wire").filter((line) => /^contact 1: contact - card A\/\d+: 2$/.test(line))).toHaveLength(1);
  expect(joined("patch").filter((line) => line.startsWith("service"))).toHaveLength(5);
  expect(joined("backplane")).toHaveLength(7);
  expect(wiring.joints.filter(({ proposed }) => proposed).length).toBeGreaterThan(0);
});

test("both bands of a pair hang on one antenna, each on the port of its band", () => {
  const hop = (name: string, more: string, radio: string, high: string, low: string) =>
    `hop ${name} {\n  ${more}\n  polarization vertical\n  radio ${radio}\n  mode 55 MHz 128QAM\n  KELD { antenna DISH60-18-80 at 40 m; ${high} }\n  TARN { antenna DISH60-18-80 at 40 m; ${low} }\n}`;
  const pair = wiringsOf(`${CATALOGUE}
${hop("HIGH", "pair LOW\n  arrangement dual-band high", "R18O", "transmits 83 GHz", "transmits 73 GHz")}
${hop("LOW", "pair HIGH\n  arrangement dual-band low\n  channel P18 / 55 MHz / 4", "R18", "transmits high", "transmits low")}`);
  for (const wiring of pair.values()) {
    expect(wiringFaults(wiring)).toEqual([]);
    const antennas = [...wiring.parts.values()].filter(({ kind }) => kind === "antenna");
    expect(antennas.map(({ id }) => id)).toEqual(["antenna LOW antenna"]);
    const ports = wiring.joints.flatMap(({ ends: [from, to] }) =>
      to.part === antennas[0]!.id ? `${from.part}: ${to.port}` : [],
    );
    expect(ports.sort()).toEqual(["unit HIGH only: high band", "unit LOW only: low band"]);
  }
});

describe("what is stated", () => {
  const at = (lines: string, cards: string) =>
    siteWiring(
      sitePlans(
        designOf(`${EXAMPLE_ENTRIES.join("\n")}
site MOSS {
  at 47.48 -30.48
  ${lines}
  chassis HEDGE as A {
    slot 6 EMBER
    slot 7 EMBER
    ${cards}
  }
}`),
      ).get("MOSS")!,
    );
  const services = ({ joints }: Wiring) =>
    joints.flatMap(({ ends: [from, to], carries, proposed = false }) =>
      carries.kind === "service"
        ? [`${from.part} ${from.port} - ${to.part} ${to.port}${proposed ? " proposed" : ""}`]
        : [],
    );

  test("a service has the ports that it states, the others are proposed around them", () => {
    const wiring = at('service "mill" 2 GE\n  service "quay" 2 GE {\n    port 3 / 4\n  }', "slot 3 FERN");
    expect(wiringFaults(wiring)).toEqual([]);
    const joined = services(wiring);
    expect(joined).toHaveLength(4);
    expect(joined.filter((line) => line.includes("card A/3 4"))).toEqual(["service 2 1 - card A/3 4"]);
    expect(joined.filter((line) => line.endsWith("proposed"))).toHaveLength(3);
  });

  test.each([
    ["3 / 11", "no such port"],
    ["4 / 1", "no card in the slot"],
    ["2 / 1", "another kind"],
  ])("a port %s that cannot be had is told with its reason", (port, fault) => {
    const wiring = at(`service "mill" 1 GE {\n    port ${port}\n  }`, "slot 3 FERN\n    slot 2 CLOVER");
    expect(wiring.loose).toEqual([{ part: "service 1", port: "1", lacks: "traffic port", fault }]);
  });

  test("of two on one port the first in the text has it", () => {
    const wiring = at(
      'service "mill" 1 GE {\n    port 3 / 2\n  }\n  service "quay" 1 GE {\n    port 3 / 2\n  }',
      "slot 3 FERN",
    );
    expect(services(wiring)).toEqual(["service 1 1 - card A/3 2"]);
    expect(wiring.loose).toEqual([{ part: "service 2", port: "1", lacks: "traffic port", fault: "taken" }]);
  });

  test("E1 of the other impedance reaches its card over a panel, as far as that goes", () => {
    const wiring = at('balun "panel" 2\n  service "mill" 3 E1-120', "slot 3 CLOVER");
    expect(wiringFaults(wiring)).toEqual([]);
    expect(wiring.loose.map(({ lacks }) => lacks)).toEqual(["traffic port"]);
    const over = wiring.joints.filter(({ ends: [from, to] }) => [from.part, to.part].includes("balun 1"));
    const ways = over.map(({ ends }) =>
      ends.map(({ part, port }) => (part === "balun 1" ? port : part)).join(" - "),
    );
    expect(ways).toEqual(["service 1 - 1 out", "1 in - card A/3", "service 1 - 2 out", "2 in - card A/3"]);
    // Behind the panel the cable is told by the pair, before it by the service.
    const labels = labelsOf(wiring);
    expect(over.map((joint) => labels.get(joint)!.cable)).toEqual(["mill-1", "panel-1", "mill-2", "panel-2"]);
  });

  test("a port that a service of its own impedance has is none for one over a panel", () => {
    // CLOVER has ten ports of 75 ohm.
    const over = (own: number) =>
      at(`balun "panel" 4\n  service "mill" ${own} E1-75\n  service "quay" 2 E1-120`, "slot 3 CLOVER");
    for (const own of [8, 9, 10]) {
      const wiring = over(own);
      expect(wiringFaults(wiring)).toEqual([]);
      expect(wiring.loose.filter(({ lacks }) => lacks === "traffic port")).toHaveLength(own - 8);
    }
  });

  test("a feed has the fuse that is stated, the other card the next of the other feed", () => {
    const wiring = at("feed B fuse 1 rated 16 A slot 6", "slot 3 FERN");
    const fuses = wiring.joints.flatMap(({ by, ends: [, to], proposed = false }) =>
      by.kind === "fuse"
        ? [`${by.feed}${by.fuse} ${by.ratingA ?? "-"} ${to.part}${proposed ? " proposed" : ""}`]
        : [],
    );
    expect(fuses).toEqual(["B1 16 card A/6", "B2 - card A/7 proposed"]);
  });

  test("whatever is stated twice or at the wrong place, no port is joined twice and none to what is not there", () => {
    const name = fc.constantFrom("A", "B");
    const slot = fc.integer({ min: 1, max: 14 });
    const chassis = fc.tuple(
      name,
      fc.array(fc.tuple(slot, fc.constantFrom("FERN", "CLOVER", "GALE", "EMBER", "LICHEN")), {
        maxLength: 4,
      }),
    );
    const line = fc.oneof(
      fc
        .tuple(name, fc.integer({ min: 1, max: 2 }), slot, name)
        .map(([feed, fuse, at, of]) => `feed ${feed} fuse ${fuse} slot ${at} in ${of}`),
      fc
        .tuple(fc.constantFrom("GE", "E1-75", "E1-120", "alarm-in"), slot, name)
        .map(([type, at, of]) => `service "x" 2 ${type} { port ${at} / 1 in ${of} }`),
      fc
        .tuple(fc.integer({ min: 1, max: 12 }), fc.constantFrom("GE", "E1-75", "E1-120"))
        .map(([count, type]) => `service "x" ${count} ${type}`),
      fc.integer({ min: 1, max: 13 }).map((input) => `alarm ${input} "door"`),
      fc.constant('balun "panel" 1'),
    );
    fc.assert(
      fc.property(
        fc.array(chassis, { minLength: 1, maxLength: 3 }),
        fc.array(line, { maxLength: 6 }),
        (racks, lines) => {
          const stands = racks.map(
            ([as, cards]) =>
              `chassis HEDGE as ${as} {\n${cards.map(([at, card]) => `slot ${at} ${card}`).join("\n")}\n}`,
          );
          const text = `${EXAMPLE_ENTRIES.join("\n")}\nsite MOSS {\nat 47.48 -30.48\n${[...lines, ...stands].join("\n")}\n}`;
          expect(wiringFaults(siteWiring(sitePlans(designOf(text)).get("MOSS")!))).toEqual([]);
        },
      ),
      { numRuns: 300 },
    );
  });

  test("labels at both ends follow the rule", () => {
    const wiring = at('service "mill" 1 GE {\n    port 3 / 2\n  }', "slot 3 FERN");
    const labels = (rule?: string) =>
      [...labelsOf(wiring, rule)]
        .filter(([{ carries }]) => carries.kind === "service")
        .map(([, label]) => label);
    expect(labels()).toEqual([{ cable: "mill-1", ends: ["mill-1 to A/3:2", "mill-1 to mill 1"] }]);
    expect(labels("{site} {cable}: {here} {there} {hop} {x}")).toEqual([
      { cable: "mill-1", ends: ["MOSS mill-1: mill 1 A/3:2 mill {x}", "MOSS mill-1: A/3:2 mill 1 mill {x}"] },
    ]);
  });
});

const TYPES: readonly PortType[] = ["FE", "GE", "2.5GE", "10GE", "E1-75", "E1-120"];

const port: fc.Arbitrary<TrafficPort> = fc.record({
  type: fc.constantFrom(...TYPES),
  powered: fc.boolean(),
  part: fc.constantFrom("one", "two"),
});
const need = fc.record({
  type: fc.constantFrom(...TYPES),
  poweredBy: fc.option(fc.constantFrom("one", "two"), { nil: undefined, freq: 4 }),
});

/** The most needs that any way serves: every way, for few ports. */
function mostServed(
  ports: readonly TrafficPort[],
  needs: readonly TrafficNeed[],
  free: ReadonlySet<number>,
): number {
  const [first, ...rest] = needs;
  if (first === undefined) return 0;
  const without = mostServed(ports, rest, free);
  return [...free].reduce((most, at) => {
    if (!serves(ports[at]!, first)) return most;
    const left = new Set([...free].filter((other) => other !== at));
    return Math.max(most, 1 + mostServed(ports, rest, left));
  }, without);
}

describe("traffic ports", () => {
  test("serve as many as any way would, each need by a port that serves it, no port twice", () => {
    fc.assert(
      fc.property(
        fc.array(port, { maxLength: 6 }),
        fc.array(need, { maxLength: 5 }),
        fc.uniqueArray(fc.nat(5), { maxLength: 2 }),
        (ports, wanted, stated) => {
          const taken = new Set(stated.filter((at) => at < ports.length));
          const needs = wanted.map((one, index) => ({ key: `need ${index}`, ...one }));
          const given = assignPorts(ports, needs, taken);
          const used = given.filter((at) => at !== undefined);
          expect(new Set(used).size).toBe(used.length);
          expect(used.filter((at) => taken.has(at))).toEqual([]);
          for (const [index, at] of given.entries())
            if (at !== undefined) expect(serves(ports[at]!, needs[index]!)).toBe(true);
          const free = new Set([...ports.keys()].filter((at) => !taken.has(at)));
          expect(used.length).toBe(mostServed(ports, needs, free));
        },
      ),
      { numRuns: 2000 },
    );
  });

  test("one more service moves few of the others", () => {
    const ports = Array.from(
      { length: 40 },
      (): TrafficPort => ({ type: "GE", powered: false, part: "one" }),
    );
    const needs = Array.from({ length: 20 }, (_, k): TrafficNeed => ({ key: `service ${k}`, type: "GE" }));
    const before = assignPorts(ports, needs, new Set());
    const after = assignPorts(ports, [...needs, { key: "another", type: "GE" }], new Set());
    const moved = before.filter((at, index) => at !== after[index]).length;
    expect(moved).toBeLessThanOrEqual(2);
  });
});
