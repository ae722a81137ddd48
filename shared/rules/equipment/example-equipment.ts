/** Parts of examples about indoor equipment: a catalogue of invented cards, and a site that holds them. */
import { exampleHop } from "../example-preamble.js";

export const EXAMPLE_CATALOGUE = `chassis HEDGE {
  height 2 U
  slot 1 to 2 controller
  slot 3 to 8 traffic
  slot 9 fan
  supply 500 W
  heat-limit 200 W
  draws 10 W
  air left-to-right
}

card HEATH { kind controller; draws 15 W }
card MIST { kind if; ports 1 IF; xpic no; draws 12 W }
card HAIL-TWIN { kind if; ports 2 IF; xpic yes; pairs within; draws 20 W }
card FERN { kind ethernet; ports 4 GE; draws 10 W }
card DEW { kind auxiliary; ports 1 order-wire; ports 2 data; ports 4 alarm-in; ports 2 alarm-out; draws 5 W }
card BREEZE { kind fan; draws 8 W }`;

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
  catalogue: string = EXAMPLE_CATALOGUE,
): string {
  const lines = site.split("\n").join("\n  ");
  return `${catalogue}

site MOSS {
  at 47.48 -30.48
  structure mast 60 m
  ${lines}
}

${exampleHop(parts).replaceAll("KELD", "MOSS")}`;
}
