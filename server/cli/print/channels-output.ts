/** Shape of `channels HOP --format json`; `hopwright schema channels` prints its JSON Schema. */
export interface ChannelsOutput {
  readonly schema: "hopwright-channels/1";
  readonly version: string;
  readonly hop: string;
  readonly plan: string;
  readonly bandwidthHz: number;
  /** The best first. */
  readonly channels: readonly {
    readonly number: number;
    readonly polarization?: string;
    /** The design states it. */
    readonly stated?: true;
    readonly lowHz: number;
    readonly highHz: number;
    /** Rise of the hop's threshold, by all. */
    readonly suffersDb: number;
    readonly suffersFrom?: string;
    /** Most that another receiver loses to it. */
    readonly causesDb: number;
    readonly causesAt?: string;
    /** Receivers that pass what the network allows, 1 dB where it states nothing. */
    readonly beyond: number;
    readonly fadeMarginDb?: number;
    readonly availabilityPercent?: number;
    /** Of one that its method only bounds. */
    readonly availabilityBound?: "at most" | "at least";
    /** Set: the availability is an estimate outside the range of its method, which itself says at least this. */
    readonly availabilityAtLeastPercent?: number;
  }[];
}
