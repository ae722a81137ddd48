import { ENGLISH_ACCEPTANCE } from "./english/acceptance.js";
import { ENGLISH_BOOK } from "./english/book.js";
import { ENGLISH_DESK } from "./english/desk.js";
import { ENGLISH_INSTALLATION } from "./english/installation.js";
import { ENGLISH_REVISION } from "./english/revision.js";
import type { SheetWords } from "./sheet-words.js";

export const ENGLISH: SheetWords = {
  language: "en",
  day: (iso) => iso,
  figure: (text) => text,
  revision: ENGLISH_REVISION,
  installation: ENGLISH_INSTALLATION,
  book: ENGLISH_BOOK,
  common: {
    designOf: "Design",
    site: "Site",
    what: "What",
    planned: "Planned",
    built: "As built",
    difference: "Difference",
    notStated: "not stated",
    from: "from",
    to: "to",
    mode: "Mode",
    name: "Name",
    date: "Date",
    signature: "Signature",
    serial: "Serial number",
    unit: "unit",
    antenna: "antenna",
    colophon: (version, on) =>
      `Computed by Hopwright ${version} from the text of the design; acceptances as of ${on}. What is promised is a prediction and no measurement.`,
  },
  safety: {
    title: "Before work on site",
    items: [
      "Local codes, the owner of the structure and licensed practice come first; this sheet replaces none of them.",
      "Work at height only by trained people with fall protection, a rescue plan, the owner's permission and a limit for wind, ice and thunder. Tie loads and tools; keep the ground below closed.",
      "Before anyone comes in front of an antenna, switch its transmitter off or close the area. Never look into an open waveguide of a live unit.",
      "No work in a thunderstorm. Outdoor unit to the structure's earth by the shortest straight wire, cable screens bonded at top, bottom and entry.",
      "A 48 V DC plant can drive an enormous short-circuit current: insulated tools, no rings, and mind the gas of batteries.",
    ],
    brief:
      "Work at height, in front of antennas, in a thunderstorm and at a 48 V DC plant can kill: the cautions of the sheets for installation and line-up hold here too.",
    keepOut: (site, publicM, workersM) =>
      `${site}: keep ${publicM} in front of the antenna free of the public and ${workersM} of workers while it transmits.`,
    keepOutLaw:
      "Distances by the far-field law at full power for the limits of ICNIRP 2020, from memory: use those that hold in your country.",
  },
  errors: {
    title: "Errors in the design",
    told: "Neither mended nor accepted, as `hopwright check` tells them: ask before anything is built, ordered or signed by this sheet.",
    about: "Where",
    counted: (count) =>
      count === 1 ? "1 error stands in the design." : `${count} errors stand in the design.`,
    tells: "`hopwright check` tells them.",
    below: "errors below",
  },
  roles: { main: "main", standby: "standby", diversity: "diversity" },
  polarizations: { vertical: "vertical", horizontal: "horizontal", slant: "slant" },
  carrier: (number) => `carrier ${number}`,
  senderStandby: "standby sends",
  facts: {
    title: "The hop",
    length: "Length",
    height: "Height of the antenna",
    azimuthTrue: "Azimuth from true north",
    azimuthCompass: (day) => `Azimuth on a compass, ${day}`,
    azimuthGrid: "Azimuth on the grid of a map, convergence",
    declination: "declination",
    norths: {
      true: (azimuth) => `${azimuth} true`,
      magnetic: (azimuth) => `${azimuth} magnetic`,
      grid: (azimuth) => `${azimuth} grid`,
    },
    noDeclination: "no declination: near a magnetic pole, or no place",
    noMagneticDay:
      "Azimuths are from true north. A compass shows others: the design states no day for them (magnetic-date) and no commit of git has one.",
    compassTold:
      "Compass: World Magnetic Model 2025, declination positive east; iron nearby, the mast above all, turns a compass further.",
    polarizationTold:
      "Vertical and horizontal are of the electric field at the antenna: upright, or level. Turning a unit or feed by 90 degrees changes one into the other.",
    elevation: "Elevation",
    channel: "Channel",
    modes: "Modes",
    transmits: "Transmits",
    receives: "Receives",
    polarization: "Polarization",
    radio: "Radio",
    power: "Power, highest mode",
    coupler: "Coupler",
    noCoupler: "none, one unit on the antenna",
    cable: "Cable to each unit",
  },
  lineUp: {
    title: "Line-up",
    order: "Order of checks",
    steps: [
      "Compare channel, half, polarization, mode and power of both units with the table above.",
      "Switch power control off at both ends and fix the highest mode.",
      "Turn each antenna coarsely to its azimuth, that of the north in hand (true, magnetic or of a map's grid), and elevation, then find the main lobe: swing through it in azimuth to both first minima, the main lobe is the middle and highest of the three maxima; then in elevation.",
      "Turn the other antenna in the same way, then the first once more.",
      "Read level and test voltage at both ends on the main units and write them down.",
      "Hold each reading against its window. Where less arrives see above before anything is fixed.",
      "Tighten and seal, read once more, switch power control and adaptive modes on again.",
    ],
    standbyStep: "Force the switch to each standby or diversity unit, sender and receiver, and read each.",
    polarizationStep:
      "One sender on, the other off: read the receivers of both polarizations and turn the feed until the other one reads least. How much less it reads is the discrimination of both: write it down, at each end and for each sender.",
    done: "Done",
    levels: "Expected levels",
    missed: (criteria) =>
      `By the design this hop misses what is asked of it: ${criteria}. The levels below may not be reached; ask before work begins.`,
    levelsTold: (windowDb) =>
      `Median in clear air at full power in the highest mode. A reading within ${windowDb} above and below agrees.`,
    direction: (from, to) => `At ${to}, from ${from}`,
    receiver: "Receiver",
    sender: "Sender",
    promised: "Promised",
    window: "Window",
    testVoltage: "Test voltage",
    voltageWindow: "Window in volts",
    measured: "Measured, dBm",
    voltageRead: "Volts read",
    readBefore: (reading) => `last read: ${reading}`,
    otherModes: "Main unit in other modes",
    lessTitle: "If less arrives",
    lessTold:
      "Less at both ends alike points to antennas and path; less at one end alone to the power of the other end or to a unit; less on one branch to its arm of the coupler, its waveguide or its unit.",
    sign: "It looks as if",
    lessBy: "Less by",
    levelAt: (site) => `Then at ${site}`,
    signs: {
      "one side lobe": "one antenna looks with its first side lobe",
      "both side lobes": "both antennas look with their first side lobes",
      "turned feed": "one feed is turned by 90 degrees",
    },
    offCurve: "off the curve",
    fields: "Filled in on site",
    fieldNames: {
      readOn: "Read on",
      readBy: "Read by",
      instrument: "Instrument",
      weather: "Weather",
      powerControlOff: "Power control off at both ends",
      azimuthBuilt: (site) => `Azimuth as built from true north, ${site}`,
      heightBuilt: (site) => `Height as built, ${site}`,
      diversityHeightBuilt: (site) => `Diversity height as built, ${site}`,
      discrimination: (site, sender) => `Discrimination read at ${site}, sender ${sender}`,
      serialOf: (what, site) => `Serial number, ${what}, ${site}`,
      remarks: "Remarks",
    },
    back: "Readings go back into the design by the list for line-up (`hopwright list line-up`, then `hopwright import`), or as `measured` lines of the hop.",
  },
  desk: ENGLISH_DESK,
  templates: {
    fields: "Further details",
    instructions: "Instructions",
    logo: "Logo",
    logoOf: (company) => `Logo of ${company}`,
  },
  acceptance: ENGLISH_ACCEPTANCE,
};
