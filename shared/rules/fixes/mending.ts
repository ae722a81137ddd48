/** What fixes of rules are made from, and the pieces that they have in common. */
import { type Address, address } from "../../design/address.js";
import type { Feeder } from "../../design/catalogue.js";
import { type Stock, suiting } from "../../design/change.js";
import type { Design, Hop, HopEnd } from "../../design/design.js";
import type { Card, SiteEquipment } from "../../design/equipment.js";
import type { FactChange, Fix } from "../../design/fact-change.js";
import type { Finding } from "../../design/finding.js";
import type { InterferenceFound } from "../../interference/network.js";
import type { ChannelPlan } from "../../spectrum/channel-plans.data.js";

/** All of the catalogue that can be ordered, templates left out. */
export interface Catalogue extends Stock {
  readonly feeders: readonly Feeder[];
  readonly cards: readonly Card[];
  /** Channel plans that the design declares itself. */
  readonly plans: readonly ChannelPlan[];
}

/** A finding to be mended. What is dear to make is made when it is asked for. */
export interface Mending {
  readonly finding: Finding;
  /** The hop that the finding stands on; undefined for one about a site or an entry of the catalogue. */
  readonly hop?: Hop;
  readonly catalogue: Catalogue;
  readonly design: Design;
  /** Of the design as it is; undefined: it was not computed. */
  readonly interference?: InterferenceFound | undefined;
  equipmentAt(site: string): SiteEquipment | undefined;
}

export type Fixes = (mending: Mending) => readonly Fix[];

/** Several, one behind the other. */
export function allOf(...fixes: readonly Fixes[]): Fixes {
  return (mending) => fixes.flatMap((each) => each(mending));
}

export function decision(title: string, ...changes: readonly FactChange[]): Fix {
  return { title, changes, changesDecision: true };
}

export interface EndHere {
  readonly hop: Hop;
  readonly end: HopEnd;
  readonly site: string;
  /** Of its block. */
  readonly at: Address;
}

/** The end that the finding's address names. */
export function endHere({ hop, finding }: Mending): EndHere | undefined {
  const site = finding.at.split(" / ")[1];
  const end = hop?.ends.find((one) => one.site.name === site);
  return hop && end && { hop, end, site: end.site.name, at: address("hop", hop.name, end.site.name) };
}

/** The fact that the finding's address names, without the argument. */
export function factHere({ finding }: Mending): string | undefined {
  return finding.at.split(" / ")[2]?.replace(/\..*$/, "");
}

/** What of the catalogue is for the hop's frequencies. */
export function fitting({ catalogue }: Mending, hop: Hop): Stock {
  return suiting(catalogue, hop);
}
