/** Shape of `channels --open --format json`; `hopwright schema open-channels` prints its JSON Schema. */
export interface OpenChannelsOutput {
  readonly schema: "hopwright-open-channels/1";
  readonly version: string;
  readonly designs: readonly OpenChannelsOfDesign[];
}

interface OpenChannelsOfDesign {
  readonly title?: string;
  /** In the order of the names. */
  readonly hops: readonly {
    readonly hop: string;
    readonly plan: string;
    readonly bandwidthHz: number;
    readonly number: number;
    readonly polarization?: string;
    readonly halves: readonly { readonly site: string; readonly transmits: "low" | "high" }[];
    /** What of it is proposed: the rest is stated. */
    readonly proposed: readonly ("number" | "polarization" | "halves")[];
    /** Rise of the hop's threshold, by all, with all as proposed. */
    readonly suffersDb: number;
    /** One of its receivers passes what the network allows, 1 dB where it states nothing. */
    readonly beyond: boolean;
  }[];
  /** Hops that lack something and are given nothing. */
  readonly notProposed: readonly { readonly hop: string; readonly why: string }[];
  /** Halves that no choice settles. */
  readonly contradictions: readonly string[];
  readonly receiversBeyond: readonly {
    /** `KELD-TARN at KELD`, or a row of others. */
    readonly at: string;
    readonly degradationDb: number;
    readonly mostBy?: string;
  }[];
  /** So many of them were so before, among what is kept. */
  readonly receiversBeyondBefore: number;
  /** Of all hops together. */
  readonly channels: number;
  readonly spectrumHz: number;
  /** What no choice comes below, and what the proposal comes to, by the powers of pairs. */
  readonly bound?: {
    readonly receiversBeyond: number;
    readonly spectrumHz: number;
    readonly ofProposal: { readonly receiversBeyond: number; readonly spectrumHz: number };
    /** No choice is better. */
    readonly isBest: boolean;
  };
}
