import type { PortType } from "../design/equipment.js";

/** Rate of an Ethernet port, by its kind: IEEE 802.3. Others have none that a packet link is held against. */
export const ETHERNET_RATE_BPS: Partial<Record<PortType, number>> = {
  FE: 100e6,
  GE: 1e9,
  "2.5GE": 2.5e9,
  "10GE": 10e9,
};
