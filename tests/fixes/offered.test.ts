/** What fixes take from the catalogue: what suits, as much as is lacking, on the line that it has already. */
import { expect, test } from "vitest";
import { EXAMPLE_ENTRIES, equipped, HOT_STANDBY } from "../../shared/rules/equipment/example-equipment.js";
import { EXAMPLE_PREAMBLE, exampleHop } from "../../shared/rules/example-preamble.js";
import { RULES } from "../../shared/rules/index.js";
import { fixesOfRule } from "./applied.js";

async function added(...cards: string[]): Promise<Map<string, string>> {
  const site = equipped(
    `chassis HEDGE {\n  ${cards.join("\n  ")}\n}`,
    HOT_STANDBY,
    EXAMPLE_ENTRIES.join("\n"),
  );
  const applied = await fixesOfRule(`${EXAMPLE_PREAMBLE}\n${site}`, "if-ports-short");
  return new Map(
    applied
      .filter(({ fix }) => fix.title.startsWith("Add "))
      .map(({ fix, text }) => [
        fix.title.replace(/ \(changes.*/, ""),
        [...text.matchAll(/^ {4}card (.*)$/gm)].map(([, line]) => line).join("; "),
      ]),
  );
}

test("two units without a port take two cards of one port, or one of three or four", async () => {
  const fixes = await added("slot 2 FERN");
  expect(fixes.get("Add 2 cards MIST")).toBe("MIST 2");
  expect(fixes.get("Add card DRIZZLE")).toBe("DRIZZLE");
  expect(fixes.get("Add card SQUALL")).toBe("SQUALL");
});

test("a card is counted up on its own line, whatever other cards there are", async () => {
  const fixes = await added("card FERN 2", "card MIST");
  expect(fixes.get("Add card MIST")).toBe("FERN 2; MIST 2");
  expect(fixes.get("Add card DRIZZLE")?.split("; ").toSorted()).toEqual(["DRIZZLE", "FERN 2", "MIST"]);
});

const titles = async (text: string, rule: string) =>
  (await fixesOfRule(text, rule)).map(({ fix }) => fix.title.replace(/ \(changes.*/, ""));

test("a coupler is offered where its kind and band suit; one without a band is not", async () => {
  const couplers = [
    "coupler BANDLESS { kind hybrid; main-loss 3.5 dB }",
    "coupler ELSEWHERE { kind hybrid; band 7.1 GHz to 7.9 GHz; main-loss 3.5 dB }",
    "coupler WIDER { kind hybrid; band 17 GHz to 20 GHz; main-loss 3.5 dB }",
  ].join("\n");
  const offered = await titles(
    `${EXAMPLE_PREAMBLE}\n${couplers}\n${RULES.get("coupler-missing")!.bad}`,
    "coupler-missing",
  );
  expect(offered.filter((title) => title.startsWith("Add coupler ")).toSorted()).toEqual([
    "Add coupler H18-E at TARN",
    "Add coupler H18-U at TARN",
    "Add coupler WIDER at TARN",
  ]);
});

test("of several IF cards the one is exchanged that does not drive the hop's units", async () => {
  const catalogue = `chassis BOX { slot 1 to 4 traffic; controller built-in }
card WAVE { kind if; ports 1 IF; highest-modulation 64QAM }
card TIDE { kind if; ports 1 IF; highest-modulation 128QAM }`;
  const offered = (...slots: string[]) => {
    const site = equipped(`chassis BOX {\n  ${slots.join("\n  ")}\n}`, HOT_STANDBY, catalogue);
    return titles(`${EXAMPLE_PREAMBLE}\n${site}`, "if-card-unit");
  };
  expect(await offered("slot 1 TIDE", "slot 2 WAVE")).toContain("Take TIDE in place of WAVE at MOSS");
  expect(await offered("slot 1 WAVE", "slot 2 TIDE")).toContain("Take TIDE in place of WAVE at MOSS");
});

test("the card of another hop is left alone, though it would not do here", async () => {
  const catalogue = `chassis BOX { slot 1 to 4 traffic; controller built-in }
card WAVE { kind if; ports 1 IF; highest-modulation QPSK }
card RILL { kind if; ports 1 IF; highest-modulation 64QAM }
card TIDE { kind if; ports 1 IF; highest-modulation 128QAM }`;
  const own = { keld: "antenna DISH60-18 at 40 m\n    transmits high\n    if-port 2 / 1" };
  const other = exampleHop({
    hop: "polarization vertical\n  radio R18\n  mode 55 MHz QPSK\n  arrangement 1+0",
    tarn: "antenna DISH60-18 at 40 m\n    transmits high\n    if-port 1 / 1",
    keld: "antenna DISH60-18 at 40 m\n    transmits low",
  }).replaceAll("TARN", "MOSS");
  const site = equipped("chassis BOX {\n  slot 1 WAVE\n  slot 2 RILL\n}", own, catalogue);
  const offered = await titles(`${EXAMPLE_PREAMBLE}\n${site}\n\n${other}`, "if-card-unit");
  expect(offered.filter((title) => title.startsWith("Take "))).toEqual([
    "Take TIDE in place of RILL at MOSS",
  ]);
});

test("a card goes into the first free slot of its kind, up to the last", async () => {
  // Slot 1 of COPSE is for power, 2 to 4 are for traffic.
  const offered = async (...taken: number[]) => {
    const slots = ["slot 1 FERN", ...taken.map((slot) => `slot ${slot} MIST`)].join("\n  ");
    const site = equipped(`chassis COPSE {\n  ${slots}\n}`, {}, EXAMPLE_ENTRIES.join("\n"));
    const all = await titles(`${EXAMPLE_PREAMBLE}\n${site}`, "slot-wrong-kind");
    return all.filter((title) => title.startsWith("Put "));
  };
  expect(await offered()).toEqual(["Put FERN into slot 2"]);
  expect(await offered(2)).toEqual(["Put FERN into slot 3"]);
  expect(await offered(2, 3)).toEqual(["Put FERN into slot 4"]);
  expect(await offered(2, 3, 4)).toEqual([]);
});

test("halves are not offered to be exchanged where a hop states its frequencies in their place", async () => {
  // A chain whose first and last hop have their halves the wrong way round; high and low of channel 4 are these.
  const chain = (first: readonly [string, string]) =>
    [
      EXAMPLE_PREAMBLE,
      ...["MOSS", "FELL", "BECK", "CRAG"].map((name, i) => `site ${name} { at ${47.6 + i / 20} -30.4 }`),
      ...(
        [
          ["KELD", "TARN", ...first],
          ["TARN", "MOSS", "high", "low"],
          ["MOSS", "FELL", "low", "high"],
          ["FELL", "BECK", "high", "low"],
          ["BECK", "CRAG", "high", "low"],
        ] as const
      ).map(([from, to, one, other]) =>
        exampleHop({
          keld: `antenna DISH60-18 at 40 m\n    transmits ${one}`,
          tarn: `antenna DISH60-18 at 40 m\n    transmits ${other}`,
        })
          .replaceAll("KELD", "FROM")
          .replaceAll("TARN", to)
          .replaceAll("FROM", from),
      ),
    ].join("\n");
  const exchanges = async (first: readonly [string, string]) =>
    new Set(
      (await titles(chain(first), "site-high-and-low")).filter((title) => title.startsWith("Exchange ")),
    );
  expect(await exchanges(["high", "low"])).toEqual(
    new Set(["Exchange high and low of KELD-TARN and BECK-CRAG"]),
  );
  expect(await exchanges(["18.93 GHz", "17.92 GHz"])).toEqual(new Set());
  expect(await exchanges(["high", "17.92 GHz"])).toEqual(new Set());
});

test("a licensed frequency is written again at the end: its half on a channel, its figure without one", async () => {
  const written = async (keld: string, change = (hop: string) => hop) => {
    const at = (of: string) => `antenna DISH60-18 at 40 m\n    transmits ${of}`;
    const hop = change(exampleHop({ keld: at(keld), tarn: at(/GHz/.test(keld) ? "17.92 GHz" : "low") }));
    const licence = 'licence "F-1" of KELD-TARN from KELD { frequency 18.93 GHz }';
    const applied = await fixesOfRule([EXAMPLE_PREAMBLE, hop, licence].join("\n"), "licence-differs");
    return applied
      .filter(({ fix }) => fix.title.startsWith("Write the licensed frequency"))
      .map(({ text, after }) => [
        /KELD \{\s.*\s*(transmits .*)/.exec(text.slice(text.indexOf("hop ")))?.[1],
        after,
      ]);
  };
  const without = (hop: string) => hop.replace("  channel P18 / 55 MHz / 4\n", "");
  expect(await written("low")).toEqual([["transmits high", 0]]);
  expect(await written("18.95 GHz", without)).toEqual([["transmits 18.93 GHz", 0]]);
  // A channel between the two is no matter of the end.
  expect(await written("18.985 GHz", (hop) => hop.replace("/ 4", "/ 5"))).toEqual([]);
});
