import type { NetworkWords } from "../../../draw/network-words.js";
import type { BookWords } from "../book-words.js";

/** Pieces of an arrangement as the language writes it; counts of carriers stay. */
const ARRANGEMENT_PIECES: Readonly<Record<string, string>> = {
  "hot-standby": "Hot-Standby",
  "two-antennas": "zwei Antennen",
  "space-diversity": "Raumdiversity",
  "frequency-diversity": "Frequenzdiversity",
  "space-and-frequency-diversity": "Raum- und Frequenzdiversity",
  xpic: "XPIC",
  "two-units": "zwei Geräte",
  "four-units": "vier Geräte",
  "single-polarization": "eine Polarisation",
  "dual-polarization": "beide Polarisationen",
  "dual-band": "Zweiband",
  low: "unteres Band",
  high: "oberes Band",
  "all-outdoor": "ganz außen",
  "all-indoor": "ganz innen",
};

const STATES = { built: "gebaut", planned: "geplant", removed: "abgebaut" } as const;

function day(iso: string): string {
  return iso.split("-").toReversed().join(".");
}

const NETWORK: NetworkWords = {
  figure: (text) => text.replace(/(?<=\d)\.(?=\d)/g, ","),
  state: ({ word, date, until }) =>
    [
      STATES[word],
      ...(date === undefined ? [] : [day(date)]),
      ...(until === undefined ? [] : [`bis ${day(until)}`]),
    ].join(" "),
  band: (name) => name.replace(/^lower /, "unteres ").replace(/^upper /, "oberes "),
  bandOpen: "Band offen",
  arrangement: (name) =>
    name
      .split(" ")
      .map((piece) => (Object.hasOwn(ARRANGEMENT_PIECES, piece) ? ARRANGEMENT_PIECES[piece] : piece))
      .join(" "),
  at: (arrangement, site) => `${arrangement} in ${site}`,
};

export const GERMAN_BOOK: BookWords = {
  title: "Netzbuch",
  contents: "Inhalt",
  map: "Lage",
  network: NETWORK,
  legend: {
    met: "erfüllt sein Ziel",
    missed: "verfehlt es",
    open: "zum Teil noch nicht bekannt",
    none: "ohne Ziel",
    planned: "blasse Linie, hohler Standort: geplant",
  },
  mapAlt: (sites, hops) => `Karte mit ${sites} Standorten und ${hops} Funkfeldern`,
  topology: "Wer mit wem verbunden ist",
  topologyAlt: (sites, hops) => `Schema mit ${sites} Standorten und ${hops} Funkfeldern`,
  topologyTold:
    "Band, Kapazität der beurteilten Betriebsart über alle Träger, Anordnung. Gestrichelt: geplant.",
  hops: "Funkfelder",
  hopsTold:
    "Die Enden stehen in der Reihenfolge der Standorte. Azimute ab geografisch Nord. Kapazität: der beurteilten Betriebsart über alle Träger, die kleinere beider Richtungen.",
  notEvaluated: (names) => `Nicht gerechnet, weil der Text nicht genug sagt: ${names}.`,
  columns: {
    hop: "Funkfeld",
    sites: "Standorte",
    lengthKm: "Länge, km",
    sendsGhz: "Sendet, GHz",
    radio: "Funkgerät",
    antennas: "Antennen",
    azimuths: "Azimute, °",
    capacityMbit: "Kapazität, Mbit/s",
    arrangement: "Anordnung",
    objective: "Ziel",
  },
  sites: "Standorte",
  site: {
    name: "Standort",
    title: "Bezeichnung",
    latitude: "Breite",
    longitude: "Länge",
    structure: "Bauwerk",
    heightM: "Höhe, m",
    hops: "Funkfelder",
  },
  objectives: "Ziele",
  objectivesCounted: ({ met, missed, open }, without) =>
    `Erfüllt: ${met} ${met === 1 ? "Funkfeld" : "Funkfelder"}. Verfehlt: ${missed}. Offen: ${open}. Ohne Ziel: ${without}.`,
  verdicts: { met: "erfüllt", missed: "verfehlt", open: "offen", none: "kein Ziel" },
  objective: "Ziel",
  missed: "Verfehlt",
  open: "Offen",
  accepted: "Zugelassen",
  acceptedAs: (what, reason, until) =>
    `${what}${reason === undefined ? "" : `: ${reason}`}${until === undefined ? "" : `, bis ${until}`}`,
  exceptions: {
    title: "Ausnahmen",
    none: "Der Entwurf nennt keine.",
    about: "Wo",
    kinds: { hop: "Funkfeld", site: "Standort", demand: "Bedarf" },
    what: "Was zugelassen ist",
    reason: "Grund",
    until: "Letzter Tag",
    noEnd: "ohne Ende",
    ended: (day) => `abgelaufen ${day}`,
  },
  licences: {
    title: "Genehmigungen, die noch fehlen",
    told: (hops, required, { without, all }) => {
      const asked = required ? "das nicht nur geplant ist" : "das als gebaut angegeben ist";
      return `Für ${without} von ${all} Aussendungen ist keine Genehmigung angegeben. Verlangt ist eine von jedem Funkfeld, ${asked}: ${hops === 0 ? "bisher von keinem" : `${hops} hier`}.`;
    },
    none: "Für jede ihrer Aussendungen ist eine angegeben.",
    hop: "Funkfeld",
    from: "Von",
    to: "Nach",
    frequency: "Sendet",
    polarization: "Polarisation",
    emission: "Sendeart",
  },
  demands: "Bedarf",
  noDemands: "Der Entwurf nennt keinen.",
  demand: {
    name: "Bedarf",
    from: "Von",
    to: "Nach",
    rates: "Zugesagt",
    taken: "Braucht auf jedem Funkfeld, mit Kopfdaten",
    way: "Weg",
    second: "Zweiter Weg",
    available: "Verfügbarkeit, Ausbreitung",
    asked: "Gefordert",
    stands: "Ergebnis",
  },
  noWay: "keiner",
  overHandover: "eine Übergabe",
};
