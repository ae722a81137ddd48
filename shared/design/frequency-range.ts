/** A closed range of frequencies, `fromHz <= toHz`. */
export interface FrequencyRange {
  readonly fromHz: number;
  readonly toHz: number;
}
