import { calibrationList } from "./calibration.js";
import { channelList } from "./channels.js";
import { endList } from "./ends.js";
import { findingList } from "./findings.js";
import { hopList } from "./hops.js";
import { lineUpList } from "./line-up.js";
import type { List, ListSubject } from "./list.js";
import type { ListedDesign } from "./listed-design.js";
import { partList } from "./parts.js";
import { portList } from "./ports.js";
import { siteList } from "./sites.js";

const LISTS: Readonly<Record<ListSubject, (listed: ListedDesign) => List>> = {
  sites: siteList,
  hops: hopList,
  ends: endList,
  parts: partList,
  ports: portList,
  channels: channelList,
  "line-up": lineUpList,
  calibration: calibrationList,
  findings: findingList,
};

export function makeList(subject: ListSubject, listed: ListedDesign): List {
  return LISTS[subject](listed);
}
