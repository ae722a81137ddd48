import type { Verdict } from "../../../evaluate/account/outage-result.js";
import type { NetworkWords } from "../../draw/network-words.js";

/** Words of the book of a network. */
export interface BookWords {
  readonly title: string;
  readonly contents: string;
  readonly map: string;
  /** Of its drawings. */
  readonly network: NetworkWords;
  /** Of the map's lines, by how the hop stands. */
  readonly legend: Readonly<Record<Verdict | "none" | "planned", string>>;
  mapAlt(sites: number, hops: number): string;
  readonly topology: string;
  topologyAlt(sites: number, hops: number): string;
  readonly topologyTold: string;
  readonly hops: string;
  readonly hopsTold: string;
  notEvaluated(names: string): string;
  readonly columns: {
    readonly hop: string;
    readonly sites: string;
    readonly lengthKm: string;
    readonly sendsGhz: string;
    readonly radio: string;
    readonly antennas: string;
    readonly azimuths: string;
    readonly capacityMbit: string;
    readonly arrangement: string;
    readonly objective: string;
  };
  readonly sites: string;
  readonly site: {
    readonly name: string;
    readonly title: string;
    readonly latitude: string;
    readonly longitude: string;
    readonly structure: string;
    readonly heightM: string;
    readonly hops: string;
  };
  readonly objectives: string;
  objectivesCounted(counts: Readonly<Record<Verdict, number>>, without: number): string;
  readonly verdicts: Readonly<Record<Verdict | "none", string>>;
  readonly objective: string;
  readonly missed: string;
  readonly open: string;
  readonly accepted: string;
  acceptedAs(what: string, reason: string | undefined, until: string | undefined): string;
  readonly exceptions: {
    readonly title: string;
    readonly none: string;
    readonly about: string;
    readonly kinds: Readonly<Record<"hop" | "site" | "demand", string>>;
    readonly what: string;
    readonly reason: string;
    readonly until: string;
    readonly noEnd: string;
    ended(day: string): string;
  };
  readonly licences: {
    readonly title: string;
    /** @param required whether the network asks for one of every hop that is not merely planned */
    told(
      hops: number,
      required: boolean,
      transmissions: { readonly without: number; readonly all: number },
    ): string;
    readonly none: string;
    readonly hop: string;
    readonly from: string;
    readonly to: string;
    readonly frequency: string;
    readonly polarization: string;
    readonly emission: string;
  };
  readonly demands: string;
  readonly noDemands: string;
  readonly demand: {
    readonly name: string;
    readonly from: string;
    readonly to: string;
    readonly rates: string;
    readonly taken: string;
    readonly way: string;
    readonly second: string;
    readonly available: string;
    readonly asked: string;
    readonly stands: string;
  };
  readonly noWay: string;
  readonly overHandover: string;
}
