/**
 * Radio-frequency channel plans for frequency-division duplex. Each row says how far its figures are
 * confirmed: "confirmed" means that the formula was read in a national plan that says it follows the
 * named edition; no Recommendation text itself was read. Edition labels are from memory.
 * f(n) = f0 + go + n step in the lower half, f'(n) = f0 + return + n step in the upper half; MHz.
 */
export interface ChannelRow {
  readonly widthMHz: number;
  readonly stepMHz: number;
  readonly goMHz: number;
  readonly returnMHz: number;
  readonly first: number;
  readonly last: number;
  readonly status: string;
}

export interface ChannelPlan {
  readonly id: string;
  readonly band: string;
  readonly documents: readonly string[];
  readonly referenceMHz: number;
  readonly rows: readonly ChannelRow[];
}

export const CHANNEL_PLANS: readonly ChannelPlan[] = [
  {
    id: "F.382-3800-4200",
    band: "4 GHz",
    documents: ["Rec. ITU-R F.382 (read as quoted from F.382-6 (1997); later edition F.382-8 exists)"],
    referenceMHz: 4003.5,
    rows: [
      { widthMHz: 29, stepMHz: 29, goMHz: -208, returnMHz: 5, first: 1, last: 6, status: "confirmed" },
      { widthMHz: 29, stepMHz: 58, goMHz: -237, returnMHz: -24, first: 1, last: 3, status: "confirmed" },
    ],
  },
  {
    id: "F.1099-4400-5000",
    band: "5 GHz",
    documents: ["Rec. ITU-R F.1099 (F.1099-5 (2013))"],
    referenceMHz: 4700,
    rows: [
      { widthMHz: 40, stepMHz: 40, goMHz: -310, returnMHz: -10, first: 1, last: 7, status: "from memory, unconfirmed" },
      { widthMHz: 20, stepMHz: 20, goMHz: -310, returnMHz: -10, first: 1, last: 14, status: "from memory, low confidence" },
      { widthMHz: 28, stepMHz: 28, goMHz: -310, returnMHz: 2, first: 1, last: 10, status: "from memory, low confidence" },
    ],
  },
  {
    id: "F.383-5925-6425",
    band: "lower 6 GHz",
    documents: ["Rec. ITU-R F.383 (read as quoted from F.383-5 (1997); later edition F.383-9 (2013))", "ERC/REC 14-01 (E)"],
    referenceMHz: 6175,
    rows: [
      { widthMHz: 29.65, stepMHz: 29.65, goMHz: -259.45, returnMHz: -7.41, first: 1, last: 8, status: "confirmed" },
      { widthMHz: 59.3, stepMHz: 29.65, goMHz: -274.275, returnMHz: -22.235, first: 2, last: 8, status: "derived by merging channels of another row (channels n-1 and n)" },
    ],
  },
  {
    id: "F.384-6425-7125",
    band: "upper 6 GHz",
    documents: ["Rec. ITU-R F.384 (F.384-11 (2012))", "ERC/REC 14-02 (E)"],
    referenceMHz: 6770,
    rows: [
      { widthMHz: 40, stepMHz: 40, goMHz: -350, returnMHz: -10, first: 1, last: 8, status: "from memory, unconfirmed" },
      { widthMHz: 30, stepMHz: 30, goMHz: -340, returnMHz: 0, first: 1, last: 10, status: "from memory, unconfirmed" },
      { widthMHz: 20, stepMHz: 20, goMHz: -350, returnMHz: -10, first: 1, last: 16, status: "from memory, unconfirmed" },
      { widthMHz: 80, stepMHz: 40, goMHz: -370, returnMHz: -30, first: 2, last: 8, status: "derived by merging channels of another row (40 MHz channels n-1 and n)" },
      { widthMHz: 60, stepMHz: 30, goMHz: -355, returnMHz: -15, first: 2, last: 10, status: "derived by merging channels of another row (30 MHz channels n-1 and n)" },
    ],
  },
  {
    id: "F.385-7425-7725",
    band: "7 GHz",
    documents: ["Rec. ITU-R F.385 (F.385-10 (2012))"],
    referenceMHz: 7575,
    rows: [
      { widthMHz: 7, stepMHz: 7, goMHz: -154, returnMHz: 7, first: 1, last: 20, status: "from memory, unconfirmed" },
      { widthMHz: 14, stepMHz: 14, goMHz: -157.5, returnMHz: 3.5, first: 1, last: 10, status: "derived by merging channels of another row (7 MHz pairs)" },
      { widthMHz: 28, stepMHz: 28, goMHz: -164.5, returnMHz: -3.5, first: 1, last: 5, status: "derived by merging channels of another row (7 MHz fours)" },
      { widthMHz: 3.5, stepMHz: 3.5, goMHz: -152.25, returnMHz: 8.75, first: 1, last: 40, status: "from memory, low confidence" },
    ],
  },
  {
    id: "F.385-7125-7425",
    band: "7 GHz",
    documents: ["Rec. ITU-R F.385 (F.385-10 (2012))"],
    referenceMHz: 7275,
    rows: [
      { widthMHz: 7, stepMHz: 7, goMHz: -154, returnMHz: 7, first: 1, last: 20, status: "from memory, unconfirmed" },
      { widthMHz: 14, stepMHz: 14, goMHz: -157.5, returnMHz: 3.5, first: 1, last: 10, status: "derived by merging channels of another row (7 MHz pairs)" },
      { widthMHz: 28, stepMHz: 28, goMHz: -164.5, returnMHz: -3.5, first: 1, last: 5, status: "derived by merging channels of another row (7 MHz fours)" },
      { widthMHz: 3.5, stepMHz: 3.5, goMHz: -152.25, returnMHz: 8.75, first: 1, last: 40, status: "from memory, low confidence" },
    ],
  },
  {
    id: "F.385-7250-7550",
    band: "7 GHz",
    documents: ["Rec. ITU-R F.385 (F.385-10 (2012))"],
    referenceMHz: 7400,
    rows: [
      { widthMHz: 7, stepMHz: 7, goMHz: -154, returnMHz: 7, first: 1, last: 20, status: "from memory, unconfirmed" },
      { widthMHz: 14, stepMHz: 14, goMHz: -157.5, returnMHz: 3.5, first: 1, last: 10, status: "derived by merging channels of another row (7 MHz pairs)" },
      { widthMHz: 28, stepMHz: 28, goMHz: -164.5, returnMHz: -3.5, first: 1, last: 5, status: "derived by merging channels of another row (7 MHz fours)" },
      { widthMHz: 3.5, stepMHz: 3.5, goMHz: -152.25, returnMHz: 8.75, first: 1, last: 40, status: "from memory, low confidence" },
    ],
  },
  {
    id: "F.385-7550-7850",
    band: "7 GHz",
    documents: ["Rec. ITU-R F.385 (F.385-10 (2012))"],
    referenceMHz: 7700,
    rows: [
      { widthMHz: 7, stepMHz: 7, goMHz: -154, returnMHz: 7, first: 1, last: 20, status: "from memory, unconfirmed" },
      { widthMHz: 14, stepMHz: 14, goMHz: -157.5, returnMHz: 3.5, first: 1, last: 10, status: "derived by merging channels of another row (7 MHz pairs)" },
      { widthMHz: 28, stepMHz: 28, goMHz: -164.5, returnMHz: -3.5, first: 1, last: 5, status: "derived by merging channels of another row (7 MHz fours)" },
      { widthMHz: 3.5, stepMHz: 3.5, goMHz: -152.25, returnMHz: 8.75, first: 1, last: 40, status: "from memory, low confidence" },
    ],
  },
  {
    id: "F.385-7425-7900-245",
    band: "7 GHz (245 MHz duplex)",
    documents: ["Rec. ITU-R F.385 (F.385-10)"],
    referenceMHz: 7662.5,
    rows: [
      { widthMHz: 28, stepMHz: 28, goMHz: -248.5, returnMHz: -3.5, first: 1, last: 8, status: "from memory, unconfirmed" },
      { widthMHz: 14, stepMHz: 14, goMHz: -241.5, returnMHz: 3.5, first: 1, last: 16, status: "from memory, low confidence" },
      { widthMHz: 7, stepMHz: 7, goMHz: -238, returnMHz: 7, first: 1, last: 32, status: "from memory, low confidence" },
    ],
  },
  {
    id: "ECC0206-7125-7425-154",
    band: "7 GHz (154 MHz duplex)",
    documents: ["ECC/REC/(02)06 (2011 revision and later)"],
    referenceMHz: 7275,
    rows: [
      { widthMHz: 28, stepMHz: 28, goMHz: -161, returnMHz: -7, first: 1, last: 5, status: "from memory, unconfirmed" },
      { widthMHz: 14, stepMHz: 14, goMHz: -154, returnMHz: 0, first: 1, last: 10, status: "from memory, unconfirmed" },
      { widthMHz: 7, stepMHz: 7, goMHz: -150.5, returnMHz: 3.5, first: 1, last: 20, status: "from memory, unconfirmed" },
    ],
  },
  {
    id: "ECC0206-7425-7725-154",
    band: "7 GHz (154 MHz duplex)",
    documents: ["ECC/REC/(02)06 (2011 revision and later)"],
    referenceMHz: 7575,
    rows: [
      { widthMHz: 28, stepMHz: 28, goMHz: -161, returnMHz: -7, first: 1, last: 5, status: "from memory, unconfirmed" },
      { widthMHz: 14, stepMHz: 14, goMHz: -154, returnMHz: 0, first: 1, last: 10, status: "from memory, unconfirmed" },
      { widthMHz: 7, stepMHz: 7, goMHz: -150.5, returnMHz: 3.5, first: 1, last: 20, status: "from memory, unconfirmed" },
    ],
  },
  {
    id: "F.386-7725-8275",
    band: "8 GHz",
    documents: ["Rec. ITU-R F.386 (F.386-9 (2013))"],
    referenceMHz: 8000,
    rows: [
      { widthMHz: 29.65, stepMHz: 29.65, goMHz: -281.95, returnMHz: 29.37, first: 1, last: 8, status: "from memory, unconfirmed" },
    ],
  },
  {
    id: "ECC0206-7725-8275",
    band: "8 GHz (283.5 MHz duplex)",
    documents: ["ECC/REC/(02)06 (as in the CEPT system when stored)"],
    referenceMHz: 8000,
    rows: [
      { widthMHz: 28, stepMHz: 28, goMHz: -281, returnMHz: 2.5, first: 1, last: 9, status: "derived from confirmed edges" },
    ],
  },
  {
    id: "F.386-8275-8500",
    band: "8 GHz (119 MHz duplex)",
    documents: ["Rec. ITU-R F.386 (F.386-9)"],
    referenceMHz: 8387.5,
    rows: [
      { widthMHz: 14, stepMHz: 14, goMHz: -108.5, returnMHz: 10.5, first: 1, last: 6, status: "from memory, unconfirmed" },
      { widthMHz: 28, stepMHz: 28, goMHz: -115.5, returnMHz: 3.5, first: 1, last: 3, status: "derived by merging channels of another row" },
    ],
  },
  {
    id: "F.386-7900-8400",
    band: "8 GHz (266 MHz duplex)",
    documents: ["Rec. ITU-R F.386 (F.386-9)"],
    referenceMHz: 8157,
    rows: [
      { widthMHz: 28, stepMHz: 28, goMHz: -259, returnMHz: 7, first: 1, last: 8, status: "from memory, low confidence" },
      { widthMHz: 14, stepMHz: 14, goMHz: -252, returnMHz: 14, first: 1, last: 16, status: "from memory, low confidence" },
      { widthMHz: 7, stepMHz: 7, goMHz: -248.5, returnMHz: 17.5, first: 1, last: 32, status: "from memory, low confidence" },
    ],
  },
  {
    id: "F.747-10150-10650",
    band: "10 GHz",
    documents: ["Rec. ITU-R F.747 (F.747-1 (2012))", "ERC/REC 12-05 (E)"],
    referenceMHz: 11701,
    rows: [
      { widthMHz: 28, stepMHz: 28, goMHz: -1561, returnMHz: -1211, first: 1, last: 5, status: "from memory, unconfirmed" },
    ],
  },
  {
    id: "F.387-10700-11700",
    band: "11 GHz",
    documents: ["Rec. ITU-R F.387 (F.387-12 (2012))"],
    referenceMHz: 11200,
    rows: [
      { widthMHz: 40, stepMHz: 40, goMHz: -525, returnMHz: 5, first: 1, last: 12, status: "from memory, unconfirmed" },
      { widthMHz: 80, stepMHz: 40, goMHz: -545, returnMHz: -15, first: 2, last: 12, status: "derived by merging channels of another row (40 MHz channels n-1 and n)" },
    ],
  },
  {
    id: "F.387-A1-10700-11700",
    band: "11 GHz interleaved",
    documents: ["Rec. ITU-R F.387 (read as quoted from F.387-7 (1997))"],
    referenceMHz: 11200,
    rows: [
      { widthMHz: 40, stepMHz: 40, goMHz: -545, returnMHz: -15, first: 2, last: 12, status: "confirmed" },
    ],
  },
  {
    id: "ERC1206-490",
    band: "11 GHz (490 MHz duplex)",
    documents: ["ERC/REC 12-06 (as in the CEPT system when stored)", "Rec. ITU-R F.387 (F.387-12)"],
    referenceMHz: 11200,
    rows: [
      { widthMHz: 56, stepMHz: 56, goMHz: -491, returnMHz: -1, first: 1, last: 8, status: "derived from confirmed edges" },
      { widthMHz: 112, stepMHz: 112, goMHz: -547, returnMHz: -57, first: 1, last: 4, status: "derived from confirmed edges" },
      { widthMHz: 28, stepMHz: 28, goMHz: -505, returnMHz: -15, first: 1, last: 17, status: "from memory, unconfirmed" },
      { widthMHz: 14, stepMHz: 14, goMHz: -498, returnMHz: -8, first: 1, last: 34, status: "from memory, low confidence" },
      { widthMHz: 7, stepMHz: 7, goMHz: -494.5, returnMHz: -4.5, first: 1, last: 68, status: "from memory, low confidence" },
    ],
  },
  {
    id: "F.497-12750-13250",
    band: "13 GHz",
    documents: ["Rec. ITU-R F.497 (F.497-7 (2007))", "ERC/REC 12-02 (E, amended 2007)"],
    referenceMHz: 12996,
    rows: [
      { widthMHz: 28, stepMHz: 28, goMHz: -259, returnMHz: 7, first: 1, last: 8, status: "from memory, unconfirmed" },
      { widthMHz: 14, stepMHz: 14, goMHz: -252, returnMHz: 14, first: 1, last: 16, status: "from memory, unconfirmed" },
      { widthMHz: 7, stepMHz: 7, goMHz: -248.5, returnMHz: 17.5, first: 1, last: 32, status: "from memory, unconfirmed" },
      { widthMHz: 3.5, stepMHz: 3.5, goMHz: -246.75, returnMHz: 19.25, first: 1, last: 64, status: "from memory, unconfirmed" },
      { widthMHz: 56, stepMHz: 56, goMHz: -273, returnMHz: -7, first: 1, last: 4, status: "from memory, unconfirmed" },
      { widthMHz: 112, stepMHz: 112, goMHz: -301, returnMHz: -35, first: 1, last: 2, status: "derived by merging channels of another row" },
    ],
  },
  {
    id: "F.746-A5-14250-14500",
    band: "14.4 GHz low capacity",
    documents: ["Rec. ITU-R F.746 (read as quoted from F.746-3 (1997))"],
    referenceMHz: 11701,
    rows: [
      { widthMHz: 7, stepMHz: 7, goMHz: 2600.5, returnMHz: 2740.5, first: 1, last: 8, status: "confirmed" },
      { widthMHz: 3.5, stepMHz: 3.5, goMHz: 2602.25, returnMHz: 2742.25, first: 1, last: 16, status: "confirmed" },
    ],
  },
  {
    id: "F.636-14500-15350-420",
    band: "15 GHz",
    documents: ["Rec. ITU-R F.636 (F.636-4 (2012))"],
    referenceMHz: 11701,
    rows: [
      { widthMHz: 28, stepMHz: 28, goMHz: 2786, returnMHz: 3206, first: 1, last: 15, status: "from memory, unconfirmed" },
      { widthMHz: 14, stepMHz: 14, goMHz: 2793, returnMHz: 3213, first: 1, last: 30, status: "from memory, unconfirmed" },
      { widthMHz: 56, stepMHz: 56, goMHz: 2772, returnMHz: 3192, first: 1, last: 7, status: "derived by merging channels of another row" },
    ],
  },
  {
    id: "F.636-14500-15350-490",
    band: "15 GHz (490 MHz duplex)",
    documents: ["Rec. ITU-R F.636 (F.636-4 (2012))"],
    referenceMHz: 11701,
    rows: [
      { widthMHz: 14, stepMHz: 14, goMHz: 2793, returnMHz: 3283, first: 1, last: 25, status: "from memory, unconfirmed" },
      { widthMHz: 28, stepMHz: 28, goMHz: 2786, returnMHz: 3276, first: 1, last: 12, status: "from memory, low confidence" },
    ],
  },
  {
    id: "ERC1207-14500-15350-728",
    band: "15 GHz (728 MHz duplex)",
    documents: ["ERC/REC 12-07 (E)", "Rec. ITU-R F.636 (F.636-4)"],
    referenceMHz: 11701,
    rows: [
      { widthMHz: 28, stepMHz: 28, goMHz: 2786, returnMHz: 3514, first: 1, last: 4, status: "from memory, unconfirmed" },
      { widthMHz: 14, stepMHz: 14, goMHz: 2793, returnMHz: 3521, first: 1, last: 8, status: "from memory, unconfirmed" },
      { widthMHz: 7, stepMHz: 7, goMHz: 2796.5, returnMHz: 3524.5, first: 1, last: 16, status: "from memory, low confidence" },
      { widthMHz: 56, stepMHz: 56, goMHz: 2772, returnMHz: 3500, first: 1, last: 2, status: "derived by merging channels of another row" },
    ],
  },
  {
    id: "F.595-17700-19700",
    band: "18 GHz",
    documents: ["Rec. ITU-R F.595 (read as quoted from F.595-4 (1997); later edition F.595-10 (2012))", "ERC/REC 12-03 (E)"],
    referenceMHz: 18700,
    rows: [
      { widthMHz: 110, stepMHz: 110, goMHz: -1000, returnMHz: 10, first: 1, last: 8, status: "confirmed" },
      { widthMHz: 27.5, stepMHz: 27.5, goMHz: -1000, returnMHz: 10, first: 1, last: 35, status: "confirmed" },
      { widthMHz: 55, stepMHz: 55, goMHz: -1000, returnMHz: 10, first: 1, last: 17, status: "from memory, unconfirmed" },
      { widthMHz: 13.75, stepMHz: 13.75, goMHz: -1000, returnMHz: 10, first: 1, last: 70, status: "from memory, unconfirmed" },
      { widthMHz: 220, stepMHz: 220, goMHz: -1110, returnMHz: 10, first: 1, last: 4, status: "from memory, unconfirmed" },
    ],
  },
  {
    id: "F.595-18GHz-centre-gap-20",
    band: "18 GHz centre gap",
    documents: ["Rec. ITU-R F.595 (read as quoted from F.595-4 (1997))"],
    referenceMHz: 18700,
    rows: [
      { widthMHz: 20, stepMHz: 20, goMHz: -130, returnMHz: -10, first: 1, last: 6, status: "confirmed" },
    ],
  },
  {
    id: "F.637-A1-21200-23600",
    band: "23 GHz (1232 MHz duplex)",
    documents: ["Rec. ITU-R F.637 (read as quoted from F.637-2 (1997) Annex 1; later edition F.637-4 (2012))"],
    referenceMHz: 22400,
    rows: [
      { widthMHz: 112, stepMHz: 112, goMHz: -1232, returnMHz: 0, first: 1, last: 10, status: "confirmed" },
      { widthMHz: 28, stepMHz: 28, goMHz: -1190, returnMHz: 42, first: 1, last: 40, status: "confirmed" },
      { widthMHz: 14, stepMHz: 14, goMHz: -1183, returnMHz: 49, first: 1, last: 80, status: "confirmed" },
      { widthMHz: 56, stepMHz: 56, goMHz: -1204, returnMHz: 28, first: 1, last: 20, status: "from memory, unconfirmed" },
      { widthMHz: 7, stepMHz: 7, goMHz: -1179.5, returnMHz: 52.5, first: 1, last: 160, status: "by nesting of the confirmed rows" },
      { widthMHz: 3.5, stepMHz: 3.5, goMHz: -1177.75, returnMHz: 54.25, first: 1, last: 320, status: "by nesting of the confirmed rows" },
    ],
  },
  {
    id: "TR1302-A-22000-23600",
    band: "23 GHz (1008 MHz duplex)",
    documents: ["T/R 13-02 (Montreux 1993, amended 2010 (title page read))", "Rec. ITU-R F.637 (F.637-4)"],
    referenceMHz: 21196,
    rows: [
      { widthMHz: 28, stepMHz: 28, goMHz: 805, returnMHz: 1813, first: 1, last: 20, status: "from memory, low confidence" },
      { widthMHz: 56, stepMHz: 56, goMHz: 791, returnMHz: 1799, first: 1, last: 9, status: "from memory, low confidence" },
      { widthMHz: 112, stepMHz: 112, goMHz: 770, returnMHz: 1778, first: 1, last: 5, status: "from memory, low confidence" },
      { widthMHz: 14, stepMHz: 14, goMHz: 798, returnMHz: 1806, first: 1, last: 41, status: "from memory, low confidence" },
      { widthMHz: 7, stepMHz: 7, goMHz: 805, returnMHz: 1813, first: 1, last: 83, status: "from memory, low confidence" },
      { widthMHz: 3.5, stepMHz: 3.5, goMHz: 805, returnMHz: 1813, first: 1, last: 168, status: "from memory, low confidence" },
    ],
  },
  {
    id: "F.748-A1-24500-26500",
    band: "26 GHz",
    documents: ["Rec. ITU-R F.748 (F.748-4 (2001))", "T/R 13-02 (amended 2010)"],
    referenceMHz: 25501,
    rows: [
      { widthMHz: 112, stepMHz: 112, goMHz: -1008, returnMHz: 0, first: 1, last: 8, status: "from memory, unconfirmed" },
      { widthMHz: 56, stepMHz: 56, goMHz: -980, returnMHz: 28, first: 1, last: 16, status: "from memory, unconfirmed" },
      { widthMHz: 28, stepMHz: 28, goMHz: -966, returnMHz: 42, first: 1, last: 32, status: "from memory, unconfirmed" },
      { widthMHz: 14, stepMHz: 14, goMHz: -959, returnMHz: 49, first: 1, last: 64, status: "from memory, unconfirmed" },
      { widthMHz: 7, stepMHz: 7, goMHz: -955.5, returnMHz: 52.5, first: 1, last: 128, status: "from memory, unconfirmed" },
      { widthMHz: 3.5, stepMHz: 3.5, goMHz: -953.75, returnMHz: 54.25, first: 1, last: 256, status: "from memory, unconfirmed" },
    ],
  },
  {
    id: "F.748-A2-27500-29500",
    band: "28 GHz",
    documents: ["Rec. ITU-R F.748 (F.748-4 (2001))", "T/R 13-02 (amended 2010)"],
    referenceMHz: 28500.5,
    rows: [
      { widthMHz: 112, stepMHz: 112, goMHz: -1008, returnMHz: 0, first: 1, last: 8, status: "from memory, unconfirmed" },
      { widthMHz: 56, stepMHz: 56, goMHz: -980, returnMHz: 28, first: 1, last: 16, status: "from memory, unconfirmed" },
      { widthMHz: 28, stepMHz: 28, goMHz: -966, returnMHz: 42, first: 1, last: 32, status: "from memory, unconfirmed" },
      { widthMHz: 14, stepMHz: 14, goMHz: -959, returnMHz: 49, first: 1, last: 64, status: "from memory, unconfirmed" },
      { widthMHz: 7, stepMHz: 7, goMHz: -955.5, returnMHz: 52.5, first: 1, last: 128, status: "from memory, unconfirmed" },
      { widthMHz: 3.5, stepMHz: 3.5, goMHz: -953.75, returnMHz: 54.25, first: 1, last: 256, status: "from memory, unconfirmed" },
    ],
  },
  {
    id: "F.1520-31800-33400",
    band: "32 GHz",
    documents: ["Rec. ITU-R F.1520 (F.1520-3 (2011); 2001 edition's title and considerings read)", "ERC/REC (01)02 (as in the CEPT system when stored)"],
    referenceMHz: 32599,
    rows: [
      { widthMHz: 28, stepMHz: 28, goMHz: -798, returnMHz: 14, first: 1, last: 27, status: "from memory, unconfirmed" },
      { widthMHz: 14, stepMHz: 14, goMHz: -791, returnMHz: 21, first: 1, last: 54, status: "from memory, unconfirmed" },
      { widthMHz: 7, stepMHz: 7, goMHz: -787.5, returnMHz: 24.5, first: 1, last: 108, status: "from memory, unconfirmed" },
      { widthMHz: 3.5, stepMHz: 3.5, goMHz: -785.75, returnMHz: 26.25, first: 1, last: 216, status: "from memory, unconfirmed" },
      { widthMHz: 56, stepMHz: 56, goMHz: -812, returnMHz: 0, first: 1, last: 12, status: "from memory, unconfirmed" },
    ],
  },
  {
    id: "TR1201-37000-39500",
    band: "38 GHz",
    documents: ["T/R 12-01 (as in the CEPT system when stored)", "Rec. ITU-R F.749 (F.749-3 (2012))"],
    referenceMHz: 38248,
    rows: [
      { widthMHz: 3.5, stepMHz: 3.5, goMHz: -1233.75, returnMHz: 26.25, first: 1, last: 344, status: "derived from confirmed edges" },
      { widthMHz: 28, stepMHz: 28, goMHz: -1204, returnMHz: 56, first: 1, last: 40, status: "from memory, unconfirmed" },
      { widthMHz: 56, stepMHz: 56, goMHz: -1218, returnMHz: 42, first: 1, last: 20, status: "from memory, unconfirmed" },
      { widthMHz: 112, stepMHz: 112, goMHz: -1246, returnMHz: 14, first: 1, last: 10, status: "from memory, unconfirmed" },
      { widthMHz: 14, stepMHz: 14, goMHz: -1197, returnMHz: 63, first: 1, last: 80, status: "from memory, unconfirmed" },
      { widthMHz: 7, stepMHz: 7, goMHz: -1193.5, returnMHz: 66.5, first: 1, last: 160, status: "from memory, unconfirmed" },
      { widthMHz: 140, stepMHz: 140, goMHz: -1260, returnMHz: 0, first: 1, last: 8, status: "from memory, unconfirmed" },
    ],
  },
  {
    id: "ERC1211-48500-52600",
    band: "50 GHz",
    documents: ["ERC/REC 12-11 (as in the CEPT system when stored)", "Rec. ITU-R F.1496 (F.1496-1 (2002), 51.4-52.6 GHz)"],
    referenceMHz: 48544,
    rows: [
      { widthMHz: 56, stepMHz: 56, goMHz: -28, returnMHz: 2364, first: 1, last: 29, status: "derived from confirmed edges" },
    ],
  },
  {
    id: "ECC0507-71000-86000",
    band: "70/80 GHz",
    documents: ["ECC/REC/(05)07 (2009/2013)", "Rec. ITU-R F.2006 (F.2006-0 (2012))"],
    referenceMHz: 71000,
    rows: [
      { widthMHz: 250, stepMHz: 250, goMHz: 0, returnMHz: 10000, first: 1, last: 19, status: "from memory, unconfirmed" },
      { widthMHz: 500, stepMHz: 250, goMHz: -125, returnMHz: 9875, first: 2, last: 19, status: "derived by merging channels of another row (250 MHz channels n-1 and n)" },
      { widthMHz: 62.5, stepMHz: 62.5, goMHz: 93.75, returnMHz: 10093.75, first: 1, last: 76, status: "from memory, low confidence" },
      { widthMHz: 125, stepMHz: 125, goMHz: 62.5, returnMHz: 10062.5, first: 1, last: 38, status: "from memory, low confidence" },
    ],
  },
  {
    id: "ECC1401-92000-95000",
    band: "92-95 GHz (FDD)",
    documents: ["ECC/REC/(14)01 (as in the CEPT system when stored)", "Rec. ITU-R F.2004 (F.2004-0 (2012))"],
    referenceMHz: 92000,
    rows: [
      { widthMHz: 50, stepMHz: 50, goMHz: 575, returnMHz: 2075, first: 1, last: 17, status: "derived from confirmed edges" },
    ],
  },
];
