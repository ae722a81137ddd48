/** What an administration granted: one transmission each, of one end of a hop. Kept where its hop is gone, too. */
import type { LatLon } from "../geodesy/coordinates.js";
import type { Address } from "./address.js";

export interface Licence {
  /** Address of its statement. */
  readonly at: Address;
  readonly number: string;
  /** Name of the hop that it is for; the design may have none of this name. */
  readonly hop: string;
  /** Name of the transmitting site. */
  readonly site: string;
  /** Granted figures, as far as stated: what is not is held against nothing. */
  readonly frequencyHz?: number;
  /** One is stated that cannot be read, as the text tells. */
  readonly frequencyUnreadable?: true;
  readonly bandwidthHz?: number;
  /** Designator, as written: `28M0D7W`. */
  readonly emission?: string;
  readonly polarization?: "horizontal" | "vertical" | "slant";
  /** At most. */
  readonly eirpDbm?: number;
  /** Name of the antenna. */
  readonly antenna?: string;
  /** Centre of the antenna above ground. */
  readonly antennaHeightM?: number;
  readonly position?: LatLon;
  /** ISO dates: first and last day that it holds; undefined: not stated. */
  readonly since?: string;
  readonly until?: string;
}

/** Why a hop that a licence names is not among those that stand. */
export type Absence =
  | { readonly is: "not declared" }
  /** It stands later. */
  | { readonly is: "to come" }
  /** @param since ISO date of the day on which it was taken down; undefined: not stated */
  | { readonly is: "gone"; readonly since?: string };

/** What the network says of licences. */
export interface LicenceTerms {
  /** Each hop that stands needs one for all that it sends. */
  readonly required?: true;
  /** So many days before its end a licence is told; undefined: `NOTICE_DAYS`. */
  readonly noticeDays?: number;
}

/** Our figure: what an application for renewal usually takes; no source. */
export const NOTICE_DAYS = 90;
