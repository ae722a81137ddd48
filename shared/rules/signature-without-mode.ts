import { address } from "../design/address.js";
import { exampleHop } from "./example-preamble.js";
import type { NetworkRule } from "./rule.js";

export const signatureWithoutMode: NetworkRule = {
  scope: "network",
  id: "signature-without-mode",
  severity: "warning",
  title: "A signature must name a mode of its radio",
  checks: "Width and modulation of each `signature` and `dispersive-margin` against the radio's modes.",
  why: "Selective fading of the mode that was meant would silently not count.",
  fix: "Write width and modulation as the radio's `mode` line has them.",
  source: "data of the equipment",
  good: exampleHop(),
  bad: `radio R18X like R18 {\n  dispersive-margin 55 MHz 512QAM 40 dB\n}\n\n${exampleHop({
    hop: "polarization vertical\n  radio R18X\n  mode 55 MHz 128QAM",
  })}`,
  check({ design, report }) {
    const seen = new Set<string>();
    for (const { radio } of design.hops.values()) {
      if (radio === undefined || seen.has(radio.name)) continue;
      seen.add(radio.name);
      for (const mode of radio.unknownModes ?? []) {
        report({
          at: address("radio", radio.name),
          message: `${radio.name} has no mode ${mode} for its signature or dispersive margin`,
        });
      }
    }
  },
};
