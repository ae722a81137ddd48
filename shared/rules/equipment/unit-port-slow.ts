import { address } from "../../design/address.js";
import type { RadioMode } from "../../design/catalogue.js";
import type { Hop } from "../../design/design.js";
import { ETHERNET_RATE_BPS } from "../../equipment/port-rate.js";
import { askedMode } from "../../evaluate/level/judged-mode.js";
import { bitRate } from "../../format/numbers.js";
import { arrangementByName } from "../../radio/arrangements.js";
import { exampleHop } from "../example-preamble.js";
import type { HopRule } from "../rule.js";

const outdoor = (port: string) => `radio R18O like R18 {
  construction all-outdoor
  port ${port}
}

${exampleHop({ hop: "polarization vertical\n  radio R18O\n  mode 55 MHz 128QAM\n  arrangement all-outdoor 1+0" })}`;

export const unitPortSlow: HopRule = {
  scope: "hop",
  id: "unit-port-slow",
  severity: "error",
  title: "The port of an all-outdoor unit is as fast as what the unit sends",
  checks:
    "The rate of the Ethernet port of an all-outdoor unit against the rate of the mode that is judged. Where only a higher mode in use is faster than the port, it is a warning.",
  why: "Everything that goes over the hop passes this port: what it does not take never gets to the antenna.",
  fix: "A radio with a faster port, or a mode that asks no more than the port gives.",
  source: "IEEE 802.3 for the rates of ports; common practice",
  needs: [],
  good: outdoor("GE"),
  bad: outdoor("FE"),
  check({ hop, report }) {
    const port = hop.radio?.unit?.port;
    const portBps = port && ETHERNET_RATE_BPS[port];
    if (portBps === undefined || !isOutdoor(hop)) return;
    const isFaster = (mode: RadioMode | undefined) => (mode?.bitRateBps ?? 0) > portBps;
    const asked = askedMode(hop);
    const mode = [asked, hop.modes.at(-1)].find(isFaster);
    if (mode === undefined) return;
    report({
      at: address("hop", hop.name, "radio"),
      severity: mode === asked ? undefined : "warning",
      message: `the ${port} port of ${hop.radio!.name} carries ${bitRate(portBps)}, ${mode.modulation} makes ${bitRate(mode.bitRateBps!)}`,
      related: [{ at: address("radio", hop.radio!.name, "port"), message: `the port of ${hop.radio!.name}` }],
    });
  },
};

/** One that has no indoor side of its own: either says so. */
function isOutdoor({ arrangement, radio }: Hop): boolean {
  const built = [arrangementByName(arrangement.name)?.construction, radio?.unit?.construction];
  return built.includes("all-outdoor");
}
