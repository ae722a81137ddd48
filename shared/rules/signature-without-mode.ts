import { address } from "../design/address.js";
import { aboutEntries } from "./entry-rule.js";
import { exampleHop } from "./example-preamble.js";
import { gathering } from "./rule.js";

export const signatureWithoutMode = gathering({
  scope: "network",
  id: "signature-without-mode",
  severity: "warning",
  title: "A signature or spectrum must name a mode of its radio",
  checks:
    "Width and modulation of each `signature`, `dispersive-margin` and `spectrum` against the radio's modes.",
  why: "Selective fading or interference of the mode that was meant would silently count otherwise.",
  fix: "Write width and modulation as the radio's `mode` line has them.",
  source: "data of the equipment",
  good: exampleHop(),
  bad: `radio R18X like R18 {\n  dispersive-margin 55 MHz 512QAM 40 dB\n}\n\n${exampleHop({
    hop: "polarization vertical\n  radio R18X\n  mode 55 MHz 128QAM",
  })}`,
  ...aboutEntries(
    ({ radio }) => (radio === undefined ? [] : [radio]),
    ({ name, unknownModes = [] }) =>
      unknownModes.map((mode) => ({
        at: address("radio", name),
        message: `${name} has no mode ${mode} for its signature, dispersive margin or spectrum`,
      })),
  ),
});
