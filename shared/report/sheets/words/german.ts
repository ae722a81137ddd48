import { GERMAN_ACCEPTANCE } from "./german/acceptance.js";
import { GERMAN_BOOK } from "./german/book.js";
import { GERMAN_DESK } from "./german/desk.js";
import { GERMAN_INSTALLATION } from "./german/installation.js";
import { GERMAN_REVISION } from "./german/revision.js";
import type { SheetWords } from "./sheet-words.js";

export const GERMAN: SheetWords = {
  language: "de",
  day: (iso) => iso.split("-").toReversed().join("."),
  figure: (text) => text.replace(/(?<=\d)\.(?=\d)/g, ","),
  revision: GERMAN_REVISION,
  installation: GERMAN_INSTALLATION,
  book: GERMAN_BOOK,
  common: {
    designOf: "Entwurf",
    site: "Standort",
    what: "Was",
    planned: "Geplant",
    built: "Gebaut",
    difference: "Abweichung",
    notStated: "nicht angegeben",
    from: "von",
    to: "bis",
    mode: "Betriebsart",
    name: "Name",
    date: "Datum",
    signature: "Unterschrift",
    serial: "Seriennummer",
    unit: "Gerät",
    antenna: "Antenne",
    colophon: (version, on) =>
      `Berechnet von Hopwright ${version} aus dem Text des Entwurfs; Ausnahmen mit Stand vom ${on}. Zugesagt heißt vorhergesagt, nicht gemessen.`,
  },
  safety: {
    title: "Vor der Arbeit am Standort",
    items: [
      "Örtliche Vorschriften, der Eigentümer des Bauwerks und die Regeln der Fachleute gehen vor; dieses Blatt ersetzt sie nicht.",
      "Arbeit in der Höhe nur durch Ausgebildete mit Absturzsicherung, Rettungsplan, Erlaubnis des Eigentümers und einer Grenze für Wind, Eis und Gewitter. Lasten und Werkzeug sichern, den Boden darunter absperren.",
      "Bevor jemand vor eine Antenne tritt, den Sender abschalten oder den Bereich sperren. Nie in den offenen Hohlleiter eines laufenden Geräts sehen.",
      "Keine Arbeit bei Gewitter. Außengerät auf kürzestem, geradem Weg an die Erde des Bauwerks, Kabelschirme oben, unten und am Eintritt verbinden.",
      "Eine 48-V-Anlage treibt einen gewaltigen Kurzschlussstrom: isoliertes Werkzeug, keine Ringe, und auf das Gas der Batterien achten.",
    ],
    brief:
      "Arbeit in der Höhe, vor Antennen, bei Gewitter und an einer 48-V-Anlage kann töten: die Warnungen der Blätter für Aufbau und Einmessen gelten auch hier.",
    keepOut: (site, publicM, workersM) =>
      `${site}: während des Sendens ${publicM} vor der Antenne für die Allgemeinheit und ${workersM} für Beschäftigte frei halten.`,
    keepOutLaw:
      "Abstände nach dem Fernfeldgesetz bei voller Leistung für die Grenzen von ICNIRP 2020, aus dem Gedächtnis: es gelten die Ihres Landes.",
  },
  errors: {
    title: "Fehler im Entwurf",
    told: "Weder behoben noch zugelassen, auf Englisch, wie `hopwright check` sie meldet: nachfragen, bevor nach diesem Blatt gebaut, bestellt oder unterschrieben wird.",
    about: "Wo",
    counted: (count) => (count === 1 ? "Im Entwurf steht 1 Fehler." : `Im Entwurf stehen ${count} Fehler.`),
    tells: "`hopwright check` nennt sie.",
    below: "Fehler unten",
  },
  roles: { main: "Betrieb", standby: "Reserve", diversity: "Diversity" },
  polarizations: { vertical: "vertikal", horizontal: "horizontal", slant: "schräg" },
  carrier: (number) => `Träger ${number}`,
  senderStandby: "Reserve sendet",
  facts: {
    title: "Das Funkfeld",
    length: "Länge",
    height: "Höhe der Antenne",
    azimuthTrue: "Azimut gegen geografisch Nord",
    azimuthCompass: (day) => `Azimut am Kompass, ${day}`,
    azimuthGrid: "Azimut im Gitter einer Karte, Konvergenz",
    declination: "Missweisung",
    norths: {
      true: (azimuth) => `${azimuth} geografisch`,
      magnetic: (azimuth) => `${azimuth} magnetisch`,
      grid: (azimuth) => `${azimuth} im Gitter`,
    },
    noDeclination: "keine Missweisung: nahe einem Magnetpol oder ohne Ort",
    noMagneticDay:
      "Azimute gegen geografisch Nord. Ein Kompass zeigt andere: der Entwurf nennt keinen Tag dafür (magnetic-date), und kein Stand in git hat einen.",
    compassTold:
      "Kompass: World Magnetic Model 2025, Missweisung nach Osten positiv; Eisen in der Nähe, vor allem der Mast, lenkt ihn weiter ab.",
    polarizationTold:
      "Vertikal und horizontal meinen das elektrische Feld an der Antenne: aufrecht oder waagrecht. Um 90 Grad gedreht wird am Gerät oder Erreger aus der einen die andere.",
    elevation: "Elevation",
    channel: "Kanal",
    modes: "Betriebsarten",
    transmits: "Sendet",
    receives: "Empfängt",
    polarization: "Polarisation",
    radio: "Funkgerät",
    power: "Leistung, höchste Betriebsart",
    coupler: "Koppler",
    noCoupler: "keiner, ein Gerät an der Antenne",
    cable: "Kabel je Gerät",
  },
  lineUp: {
    title: "Einmessen",
    order: "Reihenfolge der Prüfungen",
    steps: [
      "Kanal, Bandhälfte, Polarisation, Betriebsart und Leistung beider Geräte mit der Tabelle oben vergleichen.",
      "Leistungsregelung an beiden Enden ausschalten und die höchste Betriebsart fest einstellen.",
      "Jede Antenne grob auf ihren Azimut gegen das Nord, das man hat (geografisch, magnetisch oder Gitter), und auf ihre Elevation drehen, dann die Hauptkeule suchen: im Azimut bis zu beiden ersten Minima schwenken, die Hauptkeule ist das mittlere und höchste der drei Maxima; dann in der Elevation.",
      "Die andere Antenne ebenso drehen, danach die erste noch einmal.",
      "Pegel und Prüfspannung an beiden Enden an den Betriebsgeräten ablesen und eintragen.",
      "Jede Ablesung mit ihrem Fenster vergleichen. Kommt weniger an, zuerst oben nachsehen.",
      "Festziehen und abdichten, noch einmal ablesen, Leistungsregelung und adaptive Betriebsarten wieder einschalten.",
    ],
    standbyStep:
      "Auf jedes Reserve- oder Diversity-Gerät umschalten, Sender und Empfänger, und jedes ablesen.",
    polarizationStep:
      "Ein Sender ein, der andere aus: die Empfänger beider Polarisationen ablesen und den Erreger drehen, bis der andere am wenigsten zeigt. Um wie viel er weniger zeigt, ist die Entkopplung beider: eintragen, an jedem Ende und für jeden Sender.",
    done: "Erledigt",
    levels: "Erwartete Pegel",
    missed: (criteria) =>
      `Nach dem Entwurf verfehlt dieses Funkfeld, was verlangt ist: ${criteria}. Die Pegel unten werden vielleicht nicht erreicht; vor Beginn der Arbeit nachfragen.`,
    levelsTold: (windowDb) =>
      `Median bei klarem Wetter und voller Leistung in der höchsten Betriebsart. Eine Ablesung bis ${windowDb} darüber und darunter stimmt.`,
    direction: (from, to) => `In ${to}, von ${from}`,
    receiver: "Empfänger",
    sender: "Sender",
    promised: "Zugesagt",
    window: "Fenster",
    testVoltage: "Prüfspannung",
    voltageWindow: "Fenster in Volt",
    measured: "Gemessen, dBm",
    voltageRead: "Volt gelesen",
    readBefore: (reading) => `zuletzt gelesen: ${reading}`,
    otherModes: "Betriebsgerät in anderen Betriebsarten",
    lessTitle: "Wenn weniger ankommt",
    lessTold:
      "Weniger an beiden Enden gleich: Antennen und Strecke; weniger an nur einem Ende: Leistung des anderen Endes oder ein Gerät; weniger auf nur einem Zweig: sein Arm des Kopplers, sein Hohlleiter oder sein Gerät.",
    sign: "Es sieht aus, als ob",
    lessBy: "Weniger um",
    levelAt: (site) => `Dann in ${site}`,
    signs: {
      "one side lobe": "eine Antenne mit ihrer ersten Nebenkeule blickt",
      "both side lobes": "beide Antennen mit ihren ersten Nebenkeulen blicken",
      "turned feed": "ein Erreger um 90 Grad verdreht ist",
    },
    offCurve: "außerhalb der Kurve",
    fields: "Am Standort eintragen",
    fieldNames: {
      readOn: "Gelesen am",
      readBy: "Gelesen von",
      instrument: "Messgerät",
      weather: "Wetter",
      powerControlOff: "Leistungsregelung an beiden Enden aus",
      azimuthBuilt: (site) => `Azimut wie gebaut gegen geografisch Nord, ${site}`,
      heightBuilt: (site) => `Höhe wie gebaut, ${site}`,
      diversityHeightBuilt: (site) => `Diversity-Höhe wie gebaut, ${site}`,
      discrimination: (site, sender) => `Entkopplung gelesen an ${site}, Sender ${sender}`,
      serialOf: (what, site) => `Seriennummer, ${what}, ${site}`,
      remarks: "Bemerkungen",
    },
    back: "Ablesungen kommen mit der Liste zum Einmessen in den Entwurf zurück (`hopwright list line-up`, dann `hopwright import`) oder als Zeilen `measured` des Funkfelds.",
  },
  desk: GERMAN_DESK,
  templates: {
    fields: "Weitere Angaben",
    instructions: "Anweisungen",
    logo: "Firmenzeichen",
    logoOf: (company) => `Firmenzeichen von ${company}`,
  },
  acceptance: GERMAN_ACCEPTANCE,
};
