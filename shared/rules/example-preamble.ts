/**
 * What the examples of the rules build on: an invented network of two sites, 9.3 km apart, and invented equipment
 * with round numbers. Examples are judged over level ground at 200 m with a ridge of 15 m in the middle of the
 * path. They follow the preamble in the same file.
 */
export const EXAMPLE_PREAMBLE = `
network "Example" {
  climate {
    rain 34 mm/h
    logK -4.2
    dN75 12 N-units
    k 1.33
  }
  objective trunk {
    availability 99.99 %
    capacity 300 Mbit/s
    margin 20 dB
    clearance 1 F1 at k 1.33
  }
}

site KELD {
  at 47.5 -30.5
  structure mast 60 m
}

site TARN {
  at 47.55 -30.4
  structure mast 60 m
}

radio R18 {
  tuning 17.7 GHz to 19.7 GHz
  low-half 17.7 GHz to 18.69 GHz
  high-half 18.71 GHz to 19.7 GHz
  duplex 1010 MHz
  noise-figure 6.5 dB
  overload -20 dBm
  mode 55 MHz QPSK rate 78 Mbit/s power 24 dBm threshold -86 dBm
  mode 55 MHz 128QAM rate 310 Mbit/s power 20 dBm threshold -69 dBm
  dispersive-margin 55 MHz QPSK 60 dB
  dispersive-margin 55 MHz 128QAM 50 dB
}

antenna DISH60-18 {
  band 17.7 GHz to 19.7 GHz
  diameter 0.6 m
  gain 38.5 dBi at 18.7 GHz
}

antenna DISH120-7 {
  band 7.1 GHz to 7.9 GHz
  diameter 1.2 m
  gain 37 dBi at 7.5 GHz
}

plan P18 {
  centre 18.7 GHz
  row 55 MHz go -1000 MHz return 10 MHz channels 1 to 17
}

coupler H18-E { kind hybrid; band 17.7 GHz to 19.7 GHz; main-loss 3.5 dB }
coupler H18-U { kind hybrid; band 17.7 GHz to 19.7 GHz; main-loss 1.6 dB; standby-loss 6.4 dB }
coupler O18 { kind omt; band 17.7 GHz to 19.7 GHz; main-loss 0.4 dB }
coupler H7-E { kind hybrid; band 7.1 GHz to 7.9 GHz; main-loss 3.5 dB }
`;

/** A sound hop over the preamble, with parts put in place of its own. */
export function exampleHop(
  parts: { hop?: string; keld?: string; tarn?: string; more?: string } = {},
): string {
  const keld = parts.keld ?? "antenna DISH60-18 at 40 m\n    transmits high";
  const tarn = parts.tarn ?? "antenna DISH60-18 at 40 m\n    transmits low";
  const hop = parts.hop ?? "polarization vertical\n  radio R18\n  mode 55 MHz 128QAM\n  arrangement 1+0";
  return `hop KELD-TARN {
  objective trunk
  channel P18 / 55 MHz / 4
  ${hop}
  KELD {
    ${keld}
  }
  TARN {
    ${tarn}
  }${parts.more ? `\n  ${parts.more}` : ""}
}`;
}
