/** A cable that is plugged in elsewhere is told, whoever moved it. */
import { expect, test } from "vitest";
import { DesignModel } from "../../language/model/design-model.js";
import { readSource } from "../../language/model/source-file.js";
import { compareStates, stateOf } from "../../server/compare/compare-designs.js";
import type { SideGround } from "../../server/compare/side-ground.js";
import { openTerrain } from "../../server/terrain/store.js";
import { portsSection } from "../../shared/compare/page/ports-section.js";
import { EXAMPLE_ENTRIES } from "../../shared/rules/equipment/example-equipment.js";
import { EXAMPLE_PREAMBLE, exampleHop } from "../../shared/rules/example-preamble.js";

const GROUND: SideGround = { openTerrain, fileFor: (path) => path, shown: (file) => file, notes: [] };

/** Hops from HUB to TARN by the names given, all on one card of four ports; `more` stands at HUB. */
function hub(names: readonly string[], more: Readonly<Record<string, string>> = {}): string {
  const hops = names.map((name) =>
    exampleHop({ keld: `antenna DISH60-18 at 40 m\n    transmits high\n    ${more[name] ?? ""}` })
      .replaceAll("KELD-TARN", name)
      .replaceAll("KELD {", "HUB {"),
  );
  return `${EXAMPLE_ENTRIES.join("\n")}
${EXAMPLE_PREAMBLE}
site HUB {
  at 47.48 -30.46
  structure mast 60 m
  chassis HEDGE as A {
    slot 2 SQUALL
  }
}
${hops.join("\n")}`;
}

async function moved(was: string, is: string) {
  const [before, now] = [was, is].map((text) => {
    const model = new DesignModel("/d");
    model.setFile(readSource("/d/network.hop", text));
    return stateOf(model, GROUND, "2026-06-01");
  });
  const changes = await compareStates(before!, now!);
  return changes.ports.map(({ site, hop, branch, was, is, stated }) =>
    [site, hop, branch, was, is, ...(stated ? ["stated"] : [])].join(" "),
  );
}

test("a hop that comes moves the proposed ports behind it, and each of them is told", async () => {
  expect(await moved(hub(["B", "C"]), hub(["B", "C"]))).toEqual([]);
  // The last of the names takes what is free.
  expect(await moved(hub(["B", "C"]), hub(["B", "C", "D"]))).toEqual([]);
  expect(await moved(hub(["B", "C"]), hub(["A", "B", "C"]))).toEqual([
    "HUB B only A/2:1 A/2:2",
    "HUB C only A/2:2 A/2:3",
  ]);
});

test("one that goes, another card and a port that is stated are told likewise; a stated one stays", async () => {
  expect(await moved(hub(["A", "B"]), hub(["B"]))).toEqual(["HUB B only A/2:2 A/2:1"]);
  expect(await moved(hub(["A"]), hub(["A"]).replace("slot 2 SQUALL", "slot 3 SQUALL"))).toEqual([
    "HUB A only A/2:1 A/3:1",
  ]);
  const stated = { B: "if-port 2 / 1" };
  expect(await moved(hub(["B"], stated), hub(["A", "B"], stated))).toEqual([]);
  expect(await moved(hub(["A", "B"]), hub(["A", "B"], stated))).toEqual([
    "HUB B only A/2:2 A/2:1 stated",
    "HUB A only A/2:1 A/2:2",
  ]);
});

test("under another name of the hop or the site a cable that stays where it is is none that moved", async () => {
  expect(await moved(hub(["A"]), hub(["Z"]))).toEqual([]);
  expect(await moved(hub(["A"]), hub(["A"]).replaceAll("HUB", "HALL"))).toEqual([]);
  expect(await moved(hub(["A", "B"]), hub(["Z", "B"]))).toEqual([
    "HUB B only A/2:2 A/2:1",
    "HUB Z only A/2:1 A/2:2",
  ]);
});

test("the page has a row a cable, and says that what is printed no longer holds", () => {
  expect(portsSection([])).toEqual([]);
  const [section] = portsSection([{ site: "HUB", hop: "B", branch: "only", was: "A/2:1", is: "A/2:2" }]);
  expect(section!.blocks[0]).toMatchObject({
    rows: [{ cells: ["HUB", "B, only", "A/2:1", "A/2:2", "proposed"] }],
  });
  expect(JSON.stringify(section!.blocks[1])).toContain("printed");
});
