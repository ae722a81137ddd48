/** Parts of examples about indoor equipment: a catalogue of invented cards, and a site that holds them. */
import { exampleHop } from "../example-preamble.js";

export const EXAMPLE_ENTRIES: readonly string[] = [
  `chassis COPSE {
  height 1 U
  slot 1 power
  slot 2 to 4 traffic
  controller built-in
  supply 300 W
  heat-limit 80 W
  draws 15 W
  air right-to-left
}
`,
  `chassis HEDGE {
  height 3 U
  slot 1 controller
  slot 2 to 5 traffic
  slot 6 to 7 power
  slot 8 to 11 traffic
  slot 12 controller
  slot 13 to 14 fan
  supply 500 W
  heat-limit 200 W
  draws 10 W
  air front-to-back
}
`,
  `chassis SPINNEY {
  height 4 U
  slot 1 to 3 power
  slot 4 fan
  slot 5 to 10 traffic
  slot 11 controller
  supply 700 W
  heat-limit 300 W
  draws 20 W
  air left-to-right
}
`,
  "card HEATH { kind controller; ports 1 sync; draws 15 W }",
  "card MIST { kind if; ports 1 IF; xpic no; draws 12 W }",
  "card MIST-LINK { kind if; ports 1 IF; xpic yes; pairs neighbour; draws 14 W }",
  "card DRIZZLE { kind if; ports 3 IF; xpic no; draws 18 W }",
  "card SQUALL { kind if; ports 4 IF; xpic yes; pairs within; draws 26 W }",
  "card FERN { kind ethernet; ports 7 GE; ports 3 FE; draws 10 W }",
  "card BRACKEN { kind ethernet; ports 3 GE powered; ports 1 10GE; power-budget 140 W; draws 12 W }",
  "card BRAMBLE { kind aggregation; ports 1 10GE; ports 3 2.5GE; draws 16 W }",
  "card GALE { kind tdm; ports 1 STM-1-optical; ports 12 E1-120; draws 9 W }",
  "card CLOVER { kind tdm; ports 10 E1-75; draws 8 W }",
  "card THISTLE { kind tdm; ports 24 E1-120; draws 11 W }",
  "card IVY { kind circuit-emulation; ports 9 E1-75; ports 1 GE; draws 13 W }",
  "card DEW { kind auxiliary; ports 1 order-wire; ports 3 data; draws 4 W }",
  "card LICHEN { kind auxiliary; ports 12 alarm-in; ports 3 alarm-out; draws 3 W }",
  "card BREEZE { kind fan; draws 8 W }",
  "card EMBER { kind power; draws 2 W }",
];

/** The entries of the catalogue that a text names. */
function entriesFor(text: string): string {
  const words = new Set(text.split(/[\s;{}]+/));
  return EXAMPLE_ENTRIES.filter((entry) => words.has(entry.split(" ")[1]!)).join("\n");
}

/** Lines of a hop in hot standby, and couplers for it at both ends. */
export const HOT_STANDBY = {
  hop: "polarization vertical\n  radio R18\n  mode 55 MHz 128QAM\n  arrangement 1+1 hot-standby",
  keld: "antenna DISH60-18 at 40 m\n    coupler H18-U direct\n    transmits high",
  tarn: "antenna DISH60-18 at 40 m\n    coupler H18-U direct\n    transmits low",
} as const;

/** A site MOSS with these lines, and the sound hop from it to TARN with parts put in place of its own. */
export function equipped(
  site: string,
  parts: Parameters<typeof exampleHop>[0] = {},
  catalogue: string = entriesFor(site),
): string {
  const lines = site.split("\n").join("\n  ");
  const entries = catalogue === "" ? "" : `${catalogue}\n\n`;
  return `${entries}site MOSS {
  at 47.48 -30.48
  structure mast 60 m
  ${lines}
}

${exampleHop(parts).replaceAll("KELD", "MOSS")}`;
}
