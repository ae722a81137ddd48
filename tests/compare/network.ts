/**
 * An invented network for tests of comparing: round figures, so that what a change does can be worked out by hand.
 * High: KELD, FELL, PEAK; low: TARN, MOSS. The land is level at 200 m with a ridge between KELD and MOSS.
 */

const NETWORK = `network "Change" {
  terrain "terrain"
  climate {
    rain 34 mm/h
    logK -4.2
    dN75 12 N/km
    k 1.33
  }
  objective trunk {
    availability 99.99 %
    capacity 300 Mbit/s
    margin 20 dB
    clearance 1 F1 at k 1.33
  }
  defaults hop {
    objective trunk
    polarization vertical
    radio R18
    mode 55 MHz 128QAM
  }
}
`;

const SITES = `${[
  site("KELD", "47.5 -30.5"),
  site("TARN", "47.55 -30.4"),
  site("MOSS", "47.45 -30.42"),
  site("FELL", "47.6 -30.34"),
  site("PEAK", "47.62 -30.42"),
].join("\n\n")}\n`;

function site(name: string, at: string): string {
  return `site ${name} {\n  at ${at}\n  structure mast 60 m\n}`;
}

export const CATALOGUE = `radio R18 {
  tuning 17.7 GHz to 19.7 GHz
  low-half 17.7 GHz to 18.69 GHz
  high-half 18.71 GHz to 19.7 GHz
  duplex 1010 MHz
  noise-figure 6.5 dB
  overload -10 dBm
  mode 55 MHz QPSK rate 78 Mbit/s power 24 dBm threshold -86 dBm
  mode 55 MHz 128QAM rate 310 Mbit/s power 20 dBm threshold -69 dBm
  draws 40 W
}

antenna DISH60-18 {
  band 17.7 GHz to 19.7 GHz
  diameter 0.6 m
  gain 38.5 dBi
}

antenna DISH120-18 {
  band 17.7 GHz to 19.7 GHz
  diameter 1.2 m
  gain 44 dBi
}

coupler H18-E {
  band 17.7 GHz to 19.7 GHz
  kind hybrid
  main-loss 3.5 dB
}

plan P18 {
  centre 18.7 GHz
  row 55 MHz go -1000 MHz return 10 MHz channels 1 to 17
}
`;

export interface HopParts {
  readonly more?: string;
  readonly each?: string;
  readonly heightM?: number;
}

/** The first site transmits high. */
export function hop(name: string, high: string, low: string, channel: number, parts: HopParts = {}): string {
  const { more, each, heightM = 40 } = parts;
  const end = (at: string, half: string) =>
    `  ${at} {\n    antenna DISH60-18 at ${heightM} m\n${each ? `    ${each}\n` : ""}    transmits ${half}\n  }`;
  return `hop ${name} {
  channel P18 / 55 MHz / ${channel}
${more ? `  ${more}\n` : ""}${end(high, "high")}
${end(low, "low")}
}
`;
}

const WGS84 =
  'GEOGCS["GCS_WGS_1984",DATUM["D_WGS_1984",SPHEROID["WGS_1984",6378137.0,298.257223563]],PRIMEM["Greenwich",0.0],UNIT["Degree",0.0174532925199433]]';

/** A text grid of 0.005 degrees; the ridge runs north to south at 30.46 degrees west, south of KELD. */
export function terrain(ridgeM: number): Record<string, string> {
  const [columns, rows] = [90, 60];
  const lines = Array.from({ length: rows }, (_, row) =>
    Array.from({ length: columns }, (_, column) => {
      const south = 47.7 - row * 0.005 < 47.49;
      return south && Math.abs(-30.6 + column * 0.005 + 30.46) < 0.003 ? 200 + ridgeM : 200;
    }).join(" "),
  );
  return {
    "terrain/land.asc": `ncols ${columns}\nnrows ${rows}\nxllcorner -30.6\nyllcorner 47.4\ncellsize 0.005\nNODATA_value -9999\n${lines.join("\n")}\n`,
    "terrain/land.prj": WGS84,
  };
}

export function files(): Record<string, string> {
  return {
    "network.hop": NETWORK,
    "sites.hop": SITES,
    "catalogue.hop": CATALOGUE,
    "hops/north.hop": `${hop("KELD-TARN", "KELD", "TARN", 4)}\n${hop("KELD-MOSS", "KELD", "MOSS", 6)}`,
    "hops/south.hop": hop("FELL-TARN", "FELL", "TARN", 8),
    ...terrain(10),
  };
}

/** An invented indoor unit, its supply built in, with cards of one IF port. */
export const INDOOR = `chassis COPSE {
  height 1 U
  slot 2 to 4 traffic
  supply 500 W
  draws 10 W
}

card MIST {
  kind if
  ports 1 IF
  xpic no
  draws 5 W
}
`;
