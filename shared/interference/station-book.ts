/**
 * The stations of a design as the search takes them: made once and kept as long as what they rest on is the same, so that
 * what did not change is known by being the same object.
 */
import type { Antenna } from "../design/catalogue.js";
import type { Design, Hop } from "../design/design.js";
import type { InterferenceTerms } from "../design/interference.js";
import type { EndGeometry } from "../evaluate/account/path-result.js";
import { shownFiles } from "../others/file-names.js";
import type { ListedFiles } from "../others/listed.js";
import { repeatedOver } from "../others/repeated.js";
import { type ForeignStations, foreignStations } from "./foreign.js";
import type { NetworkState } from "./network.js";
import { type HopStations, reductionOf, type Standing, type StationTerms, stationsOf } from "./stations.js";

export interface StationInputs {
  readonly design: Design;
  readonly results: ReadonlyMap<string, Standing>;
  /** Hops at whose receivers it is asked what comes in; the others only send. Undefined: all. */
  readonly receiving?: ReadonlySet<string>;
  readonly listed: ListedFiles;
  /** ISO; rows of others count as their validity says. */
  readonly day: string;
  /** What the network states, with what maps say beside it; undefined: what it states. */
  readonly terms?: InterferenceTerms;
}

interface KnownStations {
  readonly hop: Hop;
  readonly result: Standing;
  readonly geometry: readonly EndGeometry[] | undefined;
  /** By how much power control lets its ends down. */
  readonly reductionsDb: readonly number[];
  readonly receives: boolean;
  readonly stations: HopStations;
}

export class StationBook {
  private readonly stations: Map<string, KnownStations>;
  private foreign: { readonly key: string; readonly stations: ForeignStations } | undefined;
  private couplings: { readonly key: string; readonly map: NetworkState["couplings"] } | undefined;
  private termsKey: string;

  /** @param from goes on from what this one knows, and leaves it as it is */
  constructor(from?: StationBook) {
    this.stations = new Map(from?.stations);
    this.foreign = from?.foreign;
    this.couplings = from?.couplings;
    this.termsKey = from?.termsKey ?? "";
  }

  stateOf({
    design,
    results,
    receiving,
    listed,
    day,
    terms = design.interference ?? {},
  }: StationInputs): NetworkState {
    const around = stationTerms({ design, listed, terms });
    // What stations rest on beside their hop; where it changes all are made anew.
    const patterns = [...listed.patterns].map(([file, read]) => `${file} ${idOf(read)}`);
    const key = JSON.stringify([terms, [...(design.interferenceAt ?? [])], patterns]);
    if (key !== this.termsKey) this.stations.clear();
    this.termsKey = key;
    const hops = new Map<string, HopStations>();
    for (const hop of design.hops.values()) {
      const result = results.get(hop.name);
      const receives = receiving === undefined || receiving.has(hop.name);
      if (result !== undefined) hops.set(hop.name, this.stationsOf(hop, result, receives, around));
    }
    if (this.stations.size > hops.size)
      for (const name of this.stations.keys()) if (!hops.has(name)) this.stations.delete(name);
    return {
      hops,
      terms,
      foreign: this.foreignOf(design, listed, day, terms),
      couplings: this.couplingsOf(design),
    };
  }

  private stationsOf(hop: Hop, result: Standing, receives: boolean, around: StationTerms): HopStations {
    const known = this.stations.get(hop.name);
    if (known?.hop === hop && known.result === result && known.receives === receives) return known.stations;
    const reductionsDb = hop.ends.map((end) => reductionOf(hop, end, result));
    if (
      known?.hop === hop &&
      known.receives === receives &&
      isSameGeometry(known.geometry, result.geometry) &&
      reductionsDb.every((db, i) => db === known.reductionsDb[i])
    ) {
      this.stations.set(hop.name, { ...known, result });
      return known.stations;
    }
    const all = stationsOf(hop, result, around);
    const stations = receives ? all : { senders: all.senders, receivers: [] };
    const { geometry } = result;
    this.stations.set(hop.name, { hop, result, geometry, reductionsDb, receives, stations });
    return stations;
  }

  private foreignOf(
    { others = [] }: Design,
    listed: ListedFiles,
    day: string,
    terms: InterferenceTerms,
  ): ForeignStations {
    const files = shownFiles(others.map(({ file }) => file));
    const tables = others.flatMap((one, list) => {
      const read = listed.others.get(one);
      return read === undefined || "unusable" in read
        ? []
        : [{ list, file: files[list]!, table: read.table }];
    });
    const key = [
      day,
      JSON.stringify(terms),
      ...tables.map(({ list, file, table }) => `${list} ${file} ${idOf(table)}`),
    ].join("\n");
    if (this.foreign?.key === key) return this.foreign.stations;
    const repeated = repeatedOver(tables.map(({ table }) => table));
    const all = tables.map((one, place) =>
      foreignStations({ ...one, repeated: repeated[place]!.rows }, terms, day),
    );
    const stations = {
      senders: all.flatMap(({ senders }) => senders),
      receivers: all.flatMap(({ receivers }) => receivers),
    };
    this.foreign = { key, stations };
    return stations;
  }

  private couplingsOf({ interferenceAt }: Design): NetworkState["couplings"] {
    const stated = [...(interferenceAt ?? [])].flatMap(([site, { couplingLosses }]) =>
      couplingLosses === undefined ? [] : [[site, couplingLosses] as const],
    );
    const key = JSON.stringify(stated);
    if (this.couplings?.key !== key) this.couplings = { key, map: new Map(stated) };
    return this.couplings.map;
  }
}

/** What stations of a design rest on beside their hops. */
export function stationTerms({
  design,
  listed,
  terms = design.interference ?? {},
}: Pick<StationInputs, "design" | "listed" | "terms">): StationTerms {
  return {
    terms,
    atSite: (site) => design.interferenceAt?.get(site),
    patternOf: (antenna) => patternOf(antenna, listed),
  };
}

function patternOf(antenna: Antenna, { patterns }: ListedFiles): Antenna["pattern"] {
  if (antenna.pattern.length > 0 || antenna.patternFile === undefined) return antenna.pattern;
  const read = patterns.get(antenna.patternFile);
  return read === undefined || "unusable" in read ? antenna.pattern : read.points;
}

function isSameGeometry(
  one: readonly EndGeometry[] | undefined,
  other: readonly EndGeometry[] | undefined,
): boolean {
  if (one === other) return true;
  if (one === undefined || other?.length !== one.length) return false;
  return one.every((end, index) => {
    const { site, groundM, antennaHeightM, azimuthDeg, elevationDeg } = other[index]!;
    return (
      end.site === site &&
      end.groundM === groundM &&
      end.antennaHeightM === antennaHeightM &&
      end.azimuthDeg === azimuthDeg &&
      end.elevationDeg === elevationDeg
    );
  });
}

const ids = new WeakMap<object, number>();
let lastId = 0;

/** A number for an object, as long as it is the same. */
function idOf(object: object): number {
  let id = ids.get(object);
  if (id === undefined) ids.set(object, (id = ++lastId));
  return id;
}
