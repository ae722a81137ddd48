/**
 * One design for each arrangement, with what it must come to written beside it by hand. Arms of the couplers: equal 3.5,
 * unequal 1.6 and 6.4, orthomode transducer 0.4, dual-polarized 0.4 + 1.6 and 0.4 + 6.4 dB; branching network
 * 0.7 + 0.15 dB a pass; relay 0.5 dB. Counts and what is protected: common practice. Sums: added by hand, both ends of
 * one path.
 */

export const CATALOGUE = `
antenna DISH60-18-VH like DISH60-18 { polarizations dual }
antenna DISH60-18-80 "dual-band" { diameter 0.6 m; gain 38.5 dBi at 18.7 GHz; gain 50 dBi at 80 GHz; second-band 71 GHz to 86 GHz }
coupler D18-U { kind dual-polarized; main-loss 2 dB; standby-loss 6.8 dB }
coupler D18-E { kind dual-polarized; main-loss 3.9 dB }
coupler S18 { kind splitter; main-loss 1.6 dB; standby-loss 6.4 dB; transmit-loss 0.5 dB }
radio R18I like R18 { construction all-indoor; branching 0.7 dB pass 0.15 dB }
radio R18O like R18 { construction all-outdoor; port 10GE }
feeder ELLIPTIC-18 { kind elliptical; loss 0.2 dB/m }
feeder FLEX-18 { kind flexible; loss 1 dB/m }
cable COAX-10 { kind coaxial; connector N }
cable CAT { kind ethernet }
`;

export interface Case {
  readonly arrangement: string;
  readonly radio?: string;
  readonly antenna?: string;
  /** Further lines of both ends. */
  readonly lines?: string;
  /** Pieces at both ends together. */
  readonly parts: Readonly<Record<string, number>>;
  /** Loss of each path of the first direction, ascending; one path without couplers is told by its absence. */
  readonly lossesDb: readonly number[];
  /** Rows of the level diagram that come from branching, transmitter first. */
  readonly rows: readonly string[];
  /** The other direction, where it differs. */
  readonly rowsBack?: readonly string[];
  readonly protects: string;
}

const IF = "cable COAX-10 length 40 m";

export const CASES: readonly Case[] = [
  {
    arrangement: "1+0",
    lines: `${IF}\n    feeder FLEX-18 length 0.9 m`,
    // One unit, antenna, waveguide and cable an end; 3 + 1 grounding kits for 40 m at one in 30 m.
    parts: { unit: 2, antenna: 2, feeder: 2, cable: 2, connector: 4, "grounding kit": 8 },
    lossesDb: [],
    rows: [],
    protects: "",
  },
  {
    arrangement: "1+1 hot-standby",
    lines: `${IF}\n    coupler H18-E direct`,
    parts: { unit: 4, antenna: 2, coupler: 2, cable: 4, connector: 8, "grounding kit": 16 },
    lossesDb: [7, 7, 7, 7],
    rows: ["coupler arm", "coupler arm"],
    protects: "outdoor unit, IF cable, IF port",
  },
  {
    arrangement: "1+1 hot-standby",
    lines: "coupler H18-U separate\n    feeder FLEX-18 length 0.9 m",
    // Behind the hybrid one waveguide serves both units.
    parts: { unit: 4, antenna: 2, coupler: 2, feeder: 2 },
    lossesDb: [3.2, 8, 8, 12.8],
    rows: ["coupler main arm", "coupler main arm"],
    protects: "outdoor unit, IF cable, IF port",
  },
  {
    arrangement: "1+1 hot-standby two-antennas",
    lines: "second-antenna DISH60-18 at 30 m\n    feeder FLEX-18 length 0.9 m",
    parts: { unit: 4, antenna: 4, feeder: 4 },
    lossesDb: [0, 0, 0, 0],
    rows: [],
    protects: "outdoor unit, IF cable, IF port; antenna and feeder",
  },
  {
    arrangement: "1+1 space-diversity",
    lines: "diversity-antenna DISH60-18 at 30 m",
    parts: { unit: 4, antenna: 4 },
    lossesDb: [0, 0, 0, 0],
    rows: [],
    protects: "outdoor unit, IF cable, IF port; antenna and feeder; multipath",
  },
  {
    arrangement: "1+1 frequency-diversity",
    lines: "coupler H18-U direct",
    parts: { unit: 4, antenna: 2, coupler: 2 },
    // Arms cross between the ends: both carriers lose main and standby arm. A unit sends over the arm it listens on.
    lossesDb: [8, 8],
    rows: ["coupler main arm", "coupler standby arm"],
    rowsBack: ["coupler standby arm", "coupler main arm"],
    protects: "outdoor unit, IF cable, IF port; multipath",
  },
  {
    arrangement: "1+1 xpic two-units",
    antenna: "DISH60-18-VH",
    lines: "coupler O18 direct",
    parts: { unit: 4, antenna: 2, coupler: 2 },
    lossesDb: [0.8, 0.8],
    rows: ["orthomode transducer", "orthomode transducer"],
    protects: "outdoor unit, IF cable, IF port",
  },
  {
    arrangement: "1+1 xpic four-units",
    antenna: "DISH60-18-VH",
    lines: "coupler D18-U direct",
    parts: { unit: 8, antenna: 2, coupler: 2 },
    lossesDb: [4, 4, 8.8, 8.8, 8.8, 8.8, 13.6, 13.6],
    rows: ["coupler main arm", "coupler main arm"],
    protects: "outdoor unit, IF cable, IF port of each polarization",
  },
  {
    arrangement: "2+0 single-polarization",
    lines: "coupler H18-E direct",
    parts: { unit: 4, antenna: 2, coupler: 2 },
    lossesDb: [7, 7],
    rows: ["coupler arm", "coupler arm"],
    protects: "part of the capacity, when the carriers are aggregated",
  },
  {
    arrangement: "2+0 single-polarization two-antennas",
    lines: "second-antenna DISH60-18 at 30 m",
    parts: { unit: 4, antenna: 4 },
    lossesDb: [0, 0],
    rows: [],
    protects: "part of the capacity, when the carriers are aggregated",
  },
  {
    arrangement: "2+0 dual-polarization",
    antenna: "DISH60-18-VH",
    lines: "coupler O18 separate\n    feeder FLEX-18 length 0.9 m",
    // A rectangular guide carries one polarization: two pieces an end.
    parts: { unit: 4, antenna: 2, coupler: 2, feeder: 4 },
    lossesDb: [0.8, 0.8],
    rows: ["orthomode transducer", "orthomode transducer"],
    protects: "part of the capacity, when the carriers are aggregated",
  },
  {
    arrangement: "2+0 xpic",
    antenna: "DISH60-18-VH",
    lines: `${IF}\n    coupler O18 direct`,
    parts: { unit: 4, antenna: 2, coupler: 2, cable: 4, connector: 8, "grounding kit": 16 },
    lossesDb: [0.8, 0.8],
    rows: ["orthomode transducer", "orthomode transducer"],
    protects: "part of the capacity, when the carriers are aggregated",
  },
  ...["3+1 xpic", "3+1 dual-polarization", "4+0 xpic", "4+0 dual-polarization"].map((arrangement) => ({
    arrangement,
    antenna: "DISH60-18-VH",
    lines: "coupler D18-E direct",
    parts: { unit: 8, antenna: 2, coupler: 2 },
    lossesDb: [7.8, 7.8, 7.8, 7.8],
    rows: ["coupler arm", "coupler arm"],
    protects: arrangement.startsWith("3+1")
      ? "any one carrier, by the spare one"
      : "part of the capacity, when the carriers are aggregated",
  })),
  {
    arrangement: "7+1 xpic",
    antenna: "DISH60-18-VH",
    lines: "coupler D18-E direct\n    second-antenna DISH60-18-VH at 30 m\n    second-coupler D18-E direct",
    // Four units a coupler, an antenna each.
    parts: { unit: 16, antenna: 4, coupler: 4 },
    lossesDb: Array.from({ length: 8 }, () => 7.8),
    rows: ["coupler arm", "coupler arm"],
    protects: "any one carrier, by the spare one",
  },
  {
    // ARRANGEMENTS, note on 4+0: "2+0 XPIC on each of two antennas avoids the 2 Ce".
    arrangement: "4+0 xpic",
    antenna: "DISH60-18-VH",
    lines: "coupler O18 direct\n    second-antenna DISH60-18-VH at 30 m\n    second-coupler O18 direct",
    parts: { unit: 8, antenna: 4, coupler: 4 },
    lossesDb: [0.8, 0.8, 0.8, 0.8],
    rows: ["orthomode transducer", "orthomode transducer"],
    protects: "part of the capacity, when the carriers are aggregated",
  },
  {
    arrangement: "4+1 dual-polarization",
    antenna: "DISH60-18-VH",
    // The fifth carrier has the second antenna for itself.
    lines: "coupler D18-E direct\n    second-antenna DISH60-18 at 30 m",
    parts: { unit: 10, antenna: 4, coupler: 2 },
    lossesDb: [0, 7.8, 7.8, 7.8, 7.8],
    rows: ["coupler arm", "coupler arm"],
    protects: "any one carrier, by the spare one",
  },
  ...["3+0 single-polarization", "2+1 single-polarization"].map((arrangement) => ({
    arrangement,
    lines: "coupler H18-U direct\n    second-antenna DISH60-18 at 30 m\n    second-coupler H18-E direct",
    // One arm of the second coupler is left at each end.
    parts: { unit: 6, antenna: 4, coupler: 4, termination: 2 },
    // Two cross on the unequal coupler, the third is alone on the equal one.
    lossesDb: [7, 8, 8],
    rows: ["coupler main arm", "coupler standby arm"],
    rowsBack: ["coupler standby arm", "coupler main arm"],
    protects: arrangement.startsWith("2+1")
      ? "any one carrier, by the spare one"
      : "part of the capacity, when the carriers are aggregated",
  })),
  ...["3+0 xpic", "3+0 dual-polarization", "2+1 xpic", "2+1 dual-polarization"].map((arrangement) => ({
    arrangement,
    antenna: "DISH60-18-VH",
    lines: "coupler D18-E direct",
    // Three of the four places of one coupler.
    parts: { unit: 6, antenna: 2, coupler: 2, termination: 2 },
    lossesDb: [7.8, 7.8, 7.8],
    rows: ["coupler arm", "coupler arm"],
    protects: arrangement.startsWith("2+1")
      ? "any one carrier, by the spare one"
      : "part of the capacity, when the carriers are aggregated",
  })),
  {
    arrangement: "1+1 space-and-frequency-diversity",
    lines: "diversity-antenna DISH60-18 at 30 m",
    // An antenna each, so nothing joins the units: no branching loss.
    parts: { unit: 4, antenna: 4 },
    lossesDb: [0, 0],
    rows: [],
    protects: "outdoor unit, IF cable, IF port; antenna and feeder; multipath",
  },
  {
    arrangement: "dual-band low",
    lines: IF,
    parts: { unit: 2, antenna: 2, cable: 2, connector: 4, "grounding kit": 8 },
    lossesDb: [],
    rows: [],
    protects: "the committed rate, when rain takes the high band",
  },
  {
    arrangement: "dual-band high",
    radio: "R18O",
    lines: "cable CAT length 50 m",
    // 3 + 1 grounding kits for 50 m at one in 30 m; no connectors are stated for it.
    parts: { unit: 2, antenna: 2, cable: 2, "grounding kit": 8 },
    lossesDb: [],
    rows: [],
    protects: "best effort, when the low band's equipment fails",
  },
  ...["all-outdoor 2+0 xpic", "all-outdoor 2+0 dual-polarization"].map((arrangement) => ({
    arrangement,
    radio: "R18O",
    antenna: "DISH60-18-VH",
    lines: "coupler O18 direct\n    cable CAT length 50 m",
    parts: { unit: 4, antenna: 2, coupler: 2, cable: 4, "grounding kit": 16 },
    lossesDb: [0.8, 0.8],
    rows: ["orthomode transducer", "orthomode transducer"],
    protects: "part of the capacity, when the carriers are aggregated",
  })),
  {
    arrangement: "all-indoor 2+0",
    radio: "R18I",
    lines: "feeder ELLIPTIC-18 length 30 m",
    parts: { unit: 4, antenna: 2, feeder: 2 },
    // 2 filters and 3 passes each, 1.4 + 0.45.
    lossesDb: [1.85, 1.85],
    rows: ["branching network", "branching network"],
    protects: "part of the capacity, when the carriers are aggregated",
  },
  {
    arrangement: "all-outdoor 1+0",
    radio: "R18O",
    lines: "cable CAT length 50 m",
    parts: { unit: 2, antenna: 2, cable: 2, "grounding kit": 8 },
    lossesDb: [],
    rows: [],
    protects: "",
  },
  {
    arrangement: "all-outdoor 1+1 hot-standby",
    radio: "R18O",
    lines: "coupler H18-U direct",
    parts: { unit: 4, antenna: 2, coupler: 2 },
    lossesDb: [3.2, 8, 8, 12.8],
    rows: ["coupler main arm", "coupler main arm"],
    protects: "outdoor unit with its data and power cable",
  },
  {
    arrangement: "all-indoor 1+0",
    radio: "R18I",
    lines: "feeder ELLIPTIC-18 length 30 m",
    parts: { unit: 2, antenna: 2, feeder: 2 },
    lossesDb: [],
    rows: ["branching network", "branching network"],
    protects: "",
  },
  {
    arrangement: "all-indoor 1+1 hot-standby",
    radio: "R18I",
    lines: "coupler S18\n    feeder ELLIPTIC-18 length 30 m",
    parts: { unit: 4, antenna: 2, coupler: 2, feeder: 2 },
    // Relay 0.5 outwards, splitter 1.6 or 6.4 inwards, network 0.85 and 1.0 (first and second place).
    // main-main 0.5 + 0.85 + 0.85 + 1.6; to standby 0.5 + 0.85 + 1.0 + 6.4; from standby 0.5 + 1.0 + 0.85 + 1.6; both.
    lossesDb: [3.8, 3.95, 8.75, 8.9],
    rows: ["transmit relay", "branching network", "branching network", "receive splitter main arm"],
    protects: "transceiver",
  },
  {
    arrangement: "all-indoor 1+1 space-diversity",
    radio: "R18I",
    lines: "diversity-antenna DISH60-18 at 30 m\n    feeder ELLIPTIC-18 length 30 m",
    parts: { unit: 4, antenna: 4, feeder: 4 },
    // The relay keeps the main antenna for either transmitter: two paths.
    lossesDb: [1.7, 1.85],
    rows: ["branching network", "branching network"],
    protects: "transceiver; multipath",
  },
  {
    arrangement: "all-indoor 3+1",
    radio: "R18I",
    lines: "feeder ELLIPTIC-18 length 30 m",
    parts: { unit: 8, antenna: 2, feeder: 2 },
    // Channels come off in reverse order: 2 filters and 5 passes each, 1.4 + 0.75.
    lossesDb: [2.15, 2.15, 2.15, 2.15],
    rows: ["branching network", "branching network"],
    protects: "any one carrier, by the spare one",
  },
];

export function textOf({ arrangement, radio = "R18", antenna = "DISH60-18", lines = "" }: Case): string {
  const end = (half: string) => `antenna ${antenna} at 40 m\n    transmits ${half}\n    ${lines}`;
  return `${CATALOGUE}
hop KELD-TARN {
  channel P18 / 55 MHz / 4
  polarization vertical
  arrangement ${arrangement}
  radio ${radio}
  mode 55 MHz 128QAM
  KELD {
    ${end("high")}
  }
  TARN {
    ${end("low")}
  }
}`;
}
