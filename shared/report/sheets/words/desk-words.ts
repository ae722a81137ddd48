/** Words of the sheets of a whole design: for the licensing desk, for whoever plans frequencies, and for the buyer. */
import type { HalfOfBand } from "../../../design/design.js";
import type { Delivery, PartKind } from "../../../design/equipment.js";
import type { UnlistedKind } from "../../../equipment/unlisted-parts.js";
import type { Departure } from "../../../licence/departures.js";
import type { Standing } from "../../../spectrum/standing.js";
import type { ExamplePort } from "../example-port.js";

export interface DeskWords {
  readonly hop: string;
  readonly hops: string;
  readonly none: string;
  readonly halves: Readonly<Record<HalfOfBand, string>>;
  /** Of a hop that does not stand yet, or no more. @param date ISO, as a day of the language */
  state(word: "built" | "planned" | "removed", date: string | undefined): string;
  readonly stateTitle: string;
  /** Figures of a channel plan that nobody has confirmed. */
  readonly standings: Readonly<Record<Standing, string>>;
  readonly notConfirmed: string;
  readonly standingNeeds: string;
  readonly licences: {
    readonly title: string;
    told(day: string): string;
    readonly summary: string;
    readonly number: string;
    readonly from: string;
    readonly lastDay: string;
    readonly left: string;
    readonly stands: string;
    readonly noEnd: string;
    readonly ended: string;
    daysLeft(days: number): string;
    readonly held: string;
    readonly differs: string;
    readonly notSent: string;
    readonly noneStated: string;
    without(count: number): string;
    readonly notLicensed: string;
    readonly compared: string;
    designedAt(from: string): string;
    grantedBy(number: string): string;
    readonly compares: string;
    readonly agrees: string;
    /** In brackets or behind a name: what hangs there instead. */
    asBuilt(what: string): string;
    /** Letters that the design leaves open. */
    readonly notCompared: string;
    readonly modes: string;
    readonly figures: Readonly<Record<Departure["figure"], string>>;
    readonly metresApart: (distance: string) => string;
    readonly place: string;
    readonly position: string;
    readonly positionDecimal: string;
    readonly ground: string;
    readonly fromTerrain: string;
    readonly transmission: string;
    readonly frequencies: string;
    readonly channel: string;
    readonly bandwidth: string;
    readonly polarization: string;
    readonly power: string;
    readonly controls: {
      readonly off: string;
      readonly on: string;
      takesOff(figure: string): string;
      range(figure: string): string;
    };
    readonly loss: string;
    readonly estimated: string;
    readonly antenna: string;
    readonly gain: string;
    readonly pattern: string;
    readonly patterns: {
      points(count: number): string;
      file(name: string): string;
      reference(name: string): string;
    };
    readonly eirpMain: string;
    readonly eirp: string;
    readonly ofStandby: string;
    readonly eirpControlled: string;
    readonly standbyAntenna: string;
    readonly directed: string;
    readonly licence: string;
    readonly usualLetters: string;
    readonly powerTold: string;
    readonly open: string;
    readonly openTold: string;
  };
  readonly frequencies: {
    readonly title: string;
    readonly told: string;
    readonly plain: string;
    raster(plan: string, width: string): string;
    readonly channel: string;
    readonly low: string;
    readonly high: string;
    readonly lowFrom: string;
    readonly highFrom: string;
    unused(channels: string): string;
    overlapped(channels: string): string;
    readonly open: string;
    readonly openChannel: string;
    choices(count: number): string;
    readonly noChannel: string;
    readonly sites: string;
    readonly sitesTold: string;
    readonly band: string;
    readonly transmitsLow: string;
    readonly transmitsHigh: string;
    readonly conflict: string;
    conflicts(count: number): string;
    readonly noConflicts: string;
  };
  readonly parts: {
    readonly title: string;
    readonly told: string;
    readonly bill: string;
    readonly kinds: Readonly<Record<PartKind, string>>;
    readonly kind: string;
    readonly type: string;
    readonly orderCode: string;
    readonly inUse: string;
    readonly spare: string;
    readonly together: string;
    readonly toOrder: string;
    readonly toOrderTold: string;
    /** @param hops by name, at least one */
    foundTold(hops: string): string;
    /** The catalogue states no code at all. */
    readonly noCodes: string;
    readonly pieces: string;
    /** @param length of all of them */
    inAll(count: number, length: string): string;
    readonly delivery: string;
    readonly deliveries: Readonly<Record<Delivery["state"], string>>;
    readonly noSpares: string;
    readonly sparesTold: string;
    readonly fits: (entry: string, connector: string | undefined) => string;
    readonly subBand: (name: string) => string;
    readonly subBandOpen: string;
    readonly toChoose: string;
    readonly missing: string;
    readonly missingKinds: Readonly<Record<UnlistedKind, string>>;
    at(hop: string, site: string): string;
    more(count: number): string;
    readonly never: string;
    readonly runs: string;
    readonly runsTold: string;
    readonly cable: string;
    readonly length: string;
    readonly labelFrom: string;
    readonly labelTo: string;
    readonly notJoined: string;
    readonly proposed: string;
    /** @param example of a port on the sheet, where there is one of a card */
    notation(example: ExamplePort | undefined): string;
    readonly totals: string;
    readonly runCount: string;
    readonly total: string;
    /** Of one run. */
    readonly longest: string;
    readonly drumsTold: string;
    readonly ofEstimated: string;
    readonly noRuns: string;
    readonly bySite: string;
    readonly packed: string;
  };
}
