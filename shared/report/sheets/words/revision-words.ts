/** Words of which state of its repository a design was read at. */
export interface RevisionWords {
  /** @param day as the language writes it; undefined: the commit has none */
  committed(commit: string, day: string | undefined): string;
  readonly changed: string;
  readonly filesBeside: string;
  readonly notInGit: string;
  readonly notRead: string;
  /** What a compass bearing is for, where the network states no day. */
  readonly compassOfCommit: string;
  outsideYears(day: string): string;
}
