import { exampleHop } from "../example-preamble.js";

/** The example hop, which promises about -42 dBm at both ends, with readings. */
export function measuredHop(...readings: readonly string[]): string {
  return exampleHop({ more: readings.map((one) => `measured ${one}`).join("\n  ") });
}

/** The same as hot standby on one antenna. */
export function measuredStandby(...readings: readonly string[]): string {
  const end = (half: string) => `antenna DISH60-18 at 40 m\n    coupler H18-U direct\n    transmits ${half}`;
  return exampleHop({
    hop: "polarization vertical\n  radio R18\n  mode 55 MHz 128QAM\n  arrangement 1+1 hot-standby",
    keld: end("high"),
    tarn: end("low"),
    more: readings.map((one) => `measured ${one}`).join("\n  "),
  });
}
