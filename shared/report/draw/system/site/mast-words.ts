/** Words of the drawing of a structure: pages have them in English, sheets in their own language. */
export interface MastWords {
  /** Figures with the decimal mark of the language. @param text with a point */
  figure(text: string): string;
  to(hop: string, site: string): string;
  azimuth(bearing: string): string;
  readonly noAzimuth: string;
  /** `antenna`, `second antenna`: as the design calls it. */
  role(role: string): string;
  onIt(parts: string): string;
  down(numbers: string): string;
  alsoOf(hops: string): string;
  readonly nothingDown: string;
  comesDown(cables: number, guides: number): string;
  onToRack(run: string): string;
  readonly lineForAll: string;
  over(count: number, low: string, high: string): string;
  /** `mast`, `roof`: as the design calls it. */
  structure(kind: string): string;
  /** For those who do not see it. */
  alt(site: string, structure: string | undefined, antennas: string): string;
  antennaAt(name: string, hop: string, height: string): string;
}

export const ENGLISH_MAST: MastWords = {
  figure: (text) => text,
  to: (hop, site) => `${hop} to ${site}`,
  azimuth: (bearing) => `azimuth ${bearing}`,
  noAzimuth: "azimuth not known",
  role: (role) => role,
  onIt: (parts) => `on it: ${parts}`,
  down: (numbers) => `down: ${numbers}`,
  alsoOf: (hops) => `also of ${hops}`,
  nothingDown: "no cable or guide is joined",
  comesDown: (cables, guides) => {
    const counts = [counted(cables, "cable"), counted(guides, "guide")];
    return `${counts.filter((one) => one !== "").join(" and ")} down`;
  },
  onToRack: (run) => `, ${run} on to the rack`,
  lineForAll: "; a line stands for all of one antenna",
  over: (count, low, high) => {
    const where = low === high ? `at ${low}` : `from ${low} to ${high}`;
    return `${count} antennas stand over each other here, ${where}`;
  },
  structure: (kind) => kind,
  alt: (site, structure, antennas) =>
    `Antennas at ${site} on ${structure ?? "a structure that is not stated"}: ${antennas}`,
  antennaAt: (name, hop, height) => `${name} of ${hop} at ${height}`,
};

function counted(count: number, what: string): string {
  return count === 0 ? "" : `${count} ${what}${count === 1 ? "" : "s"}`;
}
