/** Which state of its repository a design was read at, as papers tell it. */
export type DesignRevision =
  | {
      readonly state: "committed";
      /** First characters of the commit, as many in every clone. */
      readonly commit: string;
      /** Of the commit, ISO date; undefined: it has none that a calendar knows. */
      readonly day?: string;
      /** A text of the design, or a file that it was computed from, differs from what the commit has. */
      readonly changed: boolean;
      /** Terrain, maps or lists that it was computed from are in no commit: the commit alone does not tell the figures. */
      readonly filesBeside: boolean;
    }
  /** No repository, none with a commit, or none that has a text of the design's own folder. */
  | { readonly state: "not in git" }
  /** There is a repository, and git does not tell of it. */
  | { readonly state: "not read"; readonly why: string };
