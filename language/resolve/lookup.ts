/** What resolving needs to know of the rest of the design. Every look-up is noted as a dependency. */

import type { Acceptance } from "../../shared/design/acceptance.js";
import type { Antenna, Coupler, Feeder, Radio } from "../../shared/design/catalogue.js";
import type { Stock } from "../../shared/design/change.js";
import type { Climate } from "../../shared/design/climate.js";
import type { TrafficAtSite, TrafficTerms } from "../../shared/design/demand.js";
import type { Policy, Site } from "../../shared/design/design.js";
import type { Cable, Card, Chassis, SiteEquipment } from "../../shared/design/equipment.js";
import type { InterferenceAtSite, InterferenceTerms, OthersList } from "../../shared/design/interference.js";
import type { Licence } from "../../shared/design/licence.js";
import type { Objective } from "../../shared/design/objective.js";
import type { SheetTemplate } from "../../shared/design/sheets.js";
import type { ChannelPlan } from "../../shared/spectrum/channel-plans.data.js";
import type { Fact, TextProblem } from "../facts/fact.js";
import type { Declaration } from "../model/source-file.js";

export interface Lookup {
  declaration(key: string): Declaration | undefined;
  /** Whether anything is declared so, whatever stands in the view. */
  isDeclared(key: string): boolean;
  site(name: string): Site | undefined;
  radio(name: string): Radio | undefined;
  antenna(name: string): Antenna | undefined;
  coupler(name: string): Coupler | undefined;
  feeder(name: string): Feeder | undefined;
  cable(name: string): Cable | undefined;
  chassis(name: string): Chassis | undefined;
  card(name: string): Card | undefined;
  /** What stands at a site. */
  equipment(site: string): SiteEquipment | undefined;
  /** What is accepted at a site; undefined: nothing. */
  acceptedAt(site: string): readonly Acceptance[] | undefined;
  objective(name: string): Objective | undefined;
  plans(): readonly ChannelPlan[];
  /** Antennas and radios of the catalogue that can be ordered. */
  stock(): Stock;
  climate(): Climate;
  /** Gaps of the ground shorter than this are bridged; undefined: none is. */
  bridgeGapsM(): number | undefined;
  policy(): Policy | undefined;
  /** What the network states of interference; undefined: nothing. */
  interference(): InterferenceTerms | undefined;
  interferenceAt(site: string): InterferenceAtSite | undefined;
  /** In the order of the text; undefined: none is named. */
  others(): readonly OthersList[] | undefined;
  /** In the order of the text; undefined: none is stated. */
  licences(): readonly Licence[] | undefined;
  /** Templates of sheets, in the order of the text; undefined: none is stated. */
  sheets(): readonly SheetTemplate[] | undefined;
  /** What the network says of all demands; undefined: nothing. */
  traffic(): TrafficTerms | undefined;
  /** What a site is to demands; undefined: nothing. */
  trafficAt(site: string): TrafficAtSite | undefined;
  defaults(of: "hop" | "end" | "site" | "demand"): readonly Fact[];
}

/** A problem found while resolving, with the file it belongs to. */
export interface ResolveProblem {
  readonly file: string;
  readonly problem: TextProblem;
}
