/** What fixes take from the catalogue: what suits, as much as is lacking, on the line that it has already. */
import { expect, test } from "vitest";
import { EXAMPLE_ENTRIES, equipped, HOT_STANDBY } from "../../shared/rules/equipment/example-equipment.js";
import { EXAMPLE_PREAMBLE } from "../../shared/rules/example-preamble.js";
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
