/** A hop for each arrangement, as a user writes it: what the pages of the arrangements show and draw. */
import { branchesOf } from "../../equipment/branches.js";
import { FURTHER } from "../../equipment/stands.js";
import type { ArrangementFacts } from "../../radio/arrangements.js";

/** Network, sites and catalogue of every example, all of it invented; with a hop behind it a whole design. */
export const TEACHING_STOCK = `network "Arrangements" {
  climate {
    rain 34 mm/h
    logK -4.2
    dN75 12 N-units
    k 1.33
  }
  objective lesson {
    availability 99.9 %
    clearance 1 F1 at k 1.33
  }
  objective best-effort {
    availability 99 %
    clearance 1 F1 at k 1.33
  }
}

site DELL {
  at 47.5 -30.5
  structure mast 60 m
  chassis HEDGE {
    slot 1 HEATH
    slot 6 EMBER
    slot 7 EMBER
    slot 13 BREEZE
    slot 2 SQUALL
    slot 3 SQUALL
    slot 4 BRAMBLE
    slot 5 BRACKEN
  }
}

site FELL {
  at 47.51 -30.47
  structure mast 60 m
  chassis HEDGE {
    slot 1 HEATH
    slot 6 EMBER
    slot 7 EMBER
    slot 13 BREEZE
    slot 2 SQUALL
    slot 3 SQUALL
    slot 4 BRAMBLE
    slot 5 BRACKEN
  }
}

chassis HEDGE {
  height 3 U
  slot 1 controller
  slot 2 to 5 traffic
  slot 6 to 7 power
  slot 8 to 11 traffic
  slot 12 controller
  slot 13 to 14 fan
  supply 900 W
  heat-limit 300 W
  draws 10 W
  air front-to-back
}

card HEATH { kind controller; ports 1 sync; draws 15 W }
card EMBER { kind power; draws 2 W }
card BREEZE { kind fan; draws 8 W }
card SQUALL { kind if; ports 4 IF; xpic yes; pairs within; draws 26 W }
card BRAMBLE { kind aggregation; ports 1 10GE; ports 3 2.5GE; draws 16 W }
card BRACKEN { kind ethernet; ports 3 GE powered; ports 1 10GE; power-budget 140 W; draws 12 W }

radio R18 "split-mount" {
  construction split-mount
  xpic yes
  tuning 17.7 GHz to 19.7 GHz
  low-half 17.7 GHz to 18.69 GHz
  high-half 18.71 GHz to 19.7 GHz
  duplex 1010 MHz
  noise-figure 6.5 dB
  overload -15 dBm
  mode 55 MHz 128QAM rate 310 Mbit/s power 15 dBm threshold -69 dBm
  dispersive-margin 55 MHz 128QAM 50 dB
  draws 40 W
  if-limit 25 dB at 350 MHz
  rssi -90 dBm 0.4 V
  rssi -20 dBm 2.5 V
}

radio R18O "all-outdoor" like R18 { construction all-outdoor; port GE }
radio R18I "all-indoor" like R18 { construction all-indoor; branching 0.7 dB pass 0.15 dB }

radio R80 "wide band" {
  construction all-outdoor
  port 10GE
  tuning 71 GHz to 86 GHz
  low-half 71 GHz to 76 GHz
  high-half 81 GHz to 86 GHz
  duplex 10 GHz
  noise-figure 8 dB
  overload -15 dBm
  mode 500 MHz 16QAM rate 1.6 Gbit/s power 14 dBm threshold -62 dBm
  draws 50 W
}

antenna DISH60-18 "single-polarized" {
  band 17.7 GHz to 19.7 GHz
  diameter 0.6 m
  gain 38.5 dBi at 18.7 GHz
  polarizations single
}
antenna DISH60-18-VH "dual-polarized" like DISH60-18 { polarizations dual; xpd 35 dB }
antenna DISH60-18-80 "dual-band" like DISH60-18 {
  gain 38.5 dBi at 18.7 GHz
  gain 50 dBi at 80 GHz
second-band 71 GHz to 86 GHz
}

coupler H18-E "hybrid, equal" { kind hybrid; band 17.7 GHz to 19.7 GHz; main-loss 3.5 dB }
coupler O18 "orthomode transducer" { kind omt; band 17.7 GHz to 19.7 GHz; main-loss 0.4 dB }
coupler D18-E "dual-polarized, equal" { kind dual-polarized; band 17.7 GHz to 19.7 GHz; main-loss 3.9 dB }
coupler S18 "receive splitter and transmit relay" {
  kind splitter
  band 17.7 GHz to 19.7 GHz
  main-loss 3.5 dB
  transmit-loss 0.5 dB
}

cable COAX-10 { kind coaxial; loss 8 dB/100m at 350 MHz; loop-resistance 5 ohm/km }
cable CAT { kind ethernet }
cable FIBRE { kind fibre }
feeder ELLIPTIC-18 { kind elliptical; band 17.7 GHz to 19.7 GHz; loss 0.2 dB/m at 18.7 GHz }

plan P18 {
  centre 18.7 GHz
  row 55 MHz go -1000 MHz return 10 MHz channels 1 to 17
}
`;

/**
 * The lines that state an arrangement between DELL and FELL; of a dual-band pair both hops.
 * @param far what FELL is built as
 */
export function arrangementExample(facts: ArrangementFacts, far: ArrangementFacts = facts): string {
  if (facts.bandOfPair !== undefined) return PAIR;
  const radio = { "split-mount": "R18", "all-outdoor": "R18O", "all-indoor": "R18I" }[facts.construction];
  const ends = (["DELL", "FELL"] as const).map(
    (site, index) => `  ${site} {
${[
  ...(index === 1 && far !== facts ? [`arrangement ${far.name}`] : []),
  ...endLines(index === 0 ? facts : far, index === 0 ? "high" : "low"),
]
  .map((line) => `    ${line}`)
  .join("\n")}
  }`,
  );
  return `hop DELL-FELL {
  objective lesson
${channelLines(facts)}
  polarization vertical
  radio ${radio}
  mode 55 MHz 128QAM
  arrangement ${facts.name}
${ends.join("\n")}
}
`;
}

/** A channel for each frequency pair, one left free between two. */
function channelLines({ frequencyPairs }: ArrangementFacts): string {
  return Array.from({ length: frequencyPairs }, (_, i) => `  channel P18 / 55 MHz / ${2 * i + 1}`).join("\n");
}

const COUPLERS = { hybrid: "H18-E", omt: "O18", "dual-polarized": "D18-E", splitter: "S18" } as const;

/** Antennas stand one below the other, clear of each other. */
const HIGHEST_M = 40;
const APART_M = 2;
const DIVERSITY_M = 28;

function endLines(facts: ArrangementFacts, half: "high" | "low"): string[] {
  const { construction, coupler, spaceDiversity, antennas } = facts;
  const branches = branchesOf(facts);
  const lines = Array.from({ length: antennas }, (_, index) => {
    const here = branches.filter(({ antenna }) => antenna === index + 1);
    const antenna =
      new Set(here.map(({ polarization }) => polarization)).size > 1 ? "DISH60-18-VH" : "DISH60-18";
    const which = index === 0 ? "" : spaceDiversity ? "diversity-" : `${FURTHER[index - 1]}-`;
    const heightM = index > 0 && spaceDiversity ? DIVERSITY_M : HIGHEST_M - APART_M * index;
    const joins = coupler !== undefined && here.length > 1;
    const mounting = construction === "all-indoor" ? "" : " direct";
    return [
      `${which}antenna ${antenna} at ${heightM} m`,
      ...(joins ? [`${which}coupler ${COUPLERS[coupler]}${mounting}`] : []),
    ];
  }).flat();
  const wiring = {
    "split-mount": ["cable COAX-10"],
    "all-outdoor": ["cable CAT"],
    "all-indoor": ["feeder ELLIPTIC-18 length 45 m"],
  }[construction];
  return [...lines, `transmits ${half}`, ...wiring];
}

const PAIR = `hop DELL-FELL {
  objective lesson
  channel P18 / 55 MHz / 1
  polarization vertical
  radio R18
  mode 55 MHz 128QAM
  arrangement dual-band low
  pair DELL-FELL-80
  DELL {
    antenna DISH60-18-80 at 40 m
    transmits high
    cable COAX-10
  }
  FELL {
    antenna DISH60-18-80 at 40 m
    transmits low
    cable COAX-10
  }
}

hop DELL-FELL-80 {
  objective best-effort
  polarization vertical
  radio R80
  mode 500 MHz 16QAM
  arrangement dual-band high
  pair DELL-FELL
  DELL {
    antenna DISH60-18-80 at 40 m
    transmits 83 GHz
    cable FIBRE
  }
  FELL {
    antenna DISH60-18-80 at 40 m
    transmits 73 GHz
    cable FIBRE
  }
}
`;
