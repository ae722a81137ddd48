import { ENGLISH_NETWORK } from "../../../draw/network-words.js";
import type { BookWords } from "../book-words.js";

export const ENGLISH_BOOK: BookWords = {
  title: "Network book",
  contents: "Contents",
  map: "Where it lies",
  network: ENGLISH_NETWORK,
  legend: {
    met: "meets its objective",
    missed: "misses it",
    open: "part of it not known yet",
    none: "no objective",
    planned: "pale line, hollow site: planned",
  },
  mapAlt: (sites, hops) => `Map of ${sites} sites and ${hops} hops`,
  topology: "Who is joined to whom",
  topologyAlt: (sites, hops) => `Diagram of ${sites} sites and ${hops} hops`,
  topologyTold: "Band, capacity of the judged mode over all carriers, arrangement. Dashed: planned.",
  hops: "Hops",
  hopsTold:
    "Each end in the order of the sites. Azimuths are from true north. Capacity: of the judged mode over all carriers, the lower of both directions.",
  notEvaluated: (names) => `Not evaluated, since the text does not say enough: ${names}.`,
  columns: {
    hop: "Hop",
    sites: "Sites",
    lengthKm: "Length, km",
    sendsGhz: "Transmits, GHz",
    radio: "Radio",
    antennas: "Antennas",
    azimuths: "Azimuths, °",
    capacityMbit: "Capacity, Mbit/s",
    arrangement: "Arrangement",
    objective: "Objective",
  },
  sites: "Sites",
  site: {
    name: "Site",
    title: "Name",
    latitude: "Latitude",
    longitude: "Longitude",
    structure: "Structure",
    heightM: "Height, m",
    hops: "Hops",
  },
  objectives: "Objectives",
  objectivesCounted: ({ met, missed, open }, without) =>
    `Met: ${met} hops. Missed: ${missed}. Open: ${open}. Without an objective: ${without}.`,
  verdicts: { met: "met", missed: "missed", open: "open", none: "none asked" },
  objective: "Objective",
  missed: "Missed",
  open: "Open",
  accepted: "Accepted",
  acceptedAs: (what, reason, until) =>
    `${what}${reason === undefined ? "" : `: ${reason}`}${until === undefined ? "" : `, until ${until}`}`,
  exceptions: {
    title: "Exceptions",
    none: "The design states none.",
    about: "Where",
    kinds: { hop: "hop", site: "site", demand: "demand" },
    what: "What is let pass",
    reason: "Reason",
    until: "Last day",
    noEnd: "no end",
    ended: (day) => `ended ${day}`,
  },
  licences: {
    title: "Licences still open",
    told: (hops, required) => {
      const asked = required ? "that is not merely planned" : "that is stated as built";
      return hops === 0
        ? `A licence is asked of every hop ${asked}: there is none.`
        : `A licence is asked of every hop ${asked}: ${hops} here.`;
    },
    none: "Each of their transmissions has one stated.",
    hop: "Hop",
    from: "From",
    to: "To",
    frequency: "Transmits",
    polarization: "Polarization",
    emission: "Emission",
  },
  demands: "Demands",
  noDemands: "The design states none.",
  demand: {
    name: "Demand",
    from: "From",
    to: "To",
    rates: "Committed",
    way: "Way",
    second: "Second way",
    available: "Availability, propagation",
    asked: "Asked",
    stands: "Result",
  },
  noWay: "none",
  overHandover: "a handover",
};
