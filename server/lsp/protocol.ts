/**
 * The server's own messages, typed once for both sides. A request carries all that its answer needs, so
 * a restarted server asks nothing back. Standard requests are not listed here.
 */

/** What the client sends with the standard `initialize`. */
export interface InitializationOptions {
  /**
   * Whether the user trusts where the opened folders come from. Without it, or while it is false, no program is started:
   * designs are judged, and comparing with a revision waits.
   */
  readonly trusted?: boolean;
}

/** The user has come to trust the opened folders. */
export const TRUSTED = "hopwright/trusted";

/** A standard command, run by a code action on the design of a document (its URI): channels for all open hops, in one edit. */
export const PROPOSE_CHANNELS = "hopwright.proposeChannels";

/** State of the evaluation, sent when it changes. */
export const STATUS = "hopwright/status";
export interface StatusParams {
  /** Hops that still wait for evaluation; 0: everything shown is current. */
  readonly waiting: number;
  readonly designs: readonly DesignStatus[];
}
/**
 * What a document is judged with: the design of an opened folder; that of the network above it, which no opened folder
 * holds; nothing else; a copy of a design, as long as no file holds it.
 */
export type Standing = "opened" | "above" | "alone" | "copy";
export interface DesignStatus {
  /** Title of the network; the name of the folder while it has none, or of a document that is judged by itself. */
  readonly title: string;
  readonly standing: Standing;
  /** Open documents that it judges, as URIs. */
  readonly documents: readonly string[];
  /** Folder, as a URI. */
  readonly uri: string;
  readonly hops: number;
  readonly errors: number;
  readonly warnings: number;
  readonly infos: number;
}

/** A page about a hop, a site or an entry of the catalogue, or about the design when the place is in none, or is a folder. */
export const REPORT = "hopwright/report";
export interface ReportParams {
  readonly uri: string;
  /** Place of the caret, from 0, in the declaration that is meant; undefined: the design. */
  readonly line?: number;
  readonly character?: number;
  /** Name of the hop or site, or kind and name of the entry, in place of a line, to follow a page that is open already. */
  readonly hop?: string;
  readonly site?: string;
  /** `card FERN` */
  readonly entry?: string;
}
export interface ReportResult {
  readonly title: string;
  /** A whole HTML document without scripts. */
  readonly html: string;
  /** The hop, the site or the entry it is about; none: the design. */
  readonly hop?: string;
  readonly site?: string;
  readonly entry?: string;
  /** What the page draws of where the caret is: the `data-at` of its boxes. */
  readonly at?: string;
}

/** The place in the text of what a page draws; null where the design of the document states no such thing. */
export const PLACE = "hopwright/place";
export interface PlaceParams {
  readonly uri: string;
  /** A `data-at` of a page of that document's design. */
  readonly at: string;
}
export interface PlaceResult {
  readonly uri: string;
  readonly range: {
    readonly start: { readonly line: number; readonly character: number };
    readonly end: { readonly line: number; readonly character: number };
  };
}

/** Evaluates everything that waits; answered when it is done. */
export const CHECK = "hopwright/check";
export interface CheckParams {
  readonly uri?: string;
}

/**
 * Holds the design of a file against a revision of git. From then on lenses and marks tell what changed since, until
 * another revision is asked for, or none.
 */
export const COMPARE = "hopwright/compare";
export interface CompareParams {
  readonly uri: string;
  /** As git names it; null ends the comparison. */
  readonly revision: string | null;
}
export interface CompareResult {
  readonly title?: string;
  /** A whole HTML document without scripts. */
  readonly html?: string;
  /** Why there is no page, in one sentence. */
  readonly problem?: string;
  /** There is none because the opened folders are not trusted. */
  readonly untrusted?: true;
}

/** What the design of a file can be compared with. */
export const REVISIONS = "hopwright/revisions";
export interface RevisionsParams {
  readonly uri: string;
}
export interface RevisionsResult {
  readonly revisions?: readonly {
    readonly name: string;
    readonly kind: "branch" | "tag" | "remote branch" | "commit";
    readonly detail?: string;
  }[];
  /** Why there are none, in one sentence. */
  readonly problem?: string;
  readonly untrusted?: true;
}

/** Hops that differ from the revision compared with, sent when they change. */
export const CHANGED = "hopwright/changed";
export interface ChangedParams {
  /** Left out: nothing is compared any more. */
  readonly revision?: string;
  /** Files with marks; in all others there are none. */
  readonly files: readonly {
    readonly uri: string;
    readonly marks: readonly ChangeMark[];
  }[];
}
export interface ChangeMark {
  /** From 0, both inclusive. */
  readonly fromLine: number;
  readonly toLine: number;
  readonly kind: "added" | "worse" | "better" | "changed";
  readonly text: string;
}
