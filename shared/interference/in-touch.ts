/**
 * Which hops matter to each other, told before any of them is evaluated: by the bound of the search, with heights left out,
 * which it hardly sees. Who looks at a few hops of a large network evaluates these beside them, and no others.
 */
import type { Antenna } from "../design/catalogue.js";
import type { Design, Hop } from "../design/design.js";
import type { InterferenceTerms } from "../design/interference.js";
import type { EndGeometry } from "../evaluate/account/path-result.js";
import { inverse } from "../geodesy/geodesic.js";
import { Cells } from "./cells.js";
import { pathTermsOf } from "./entry-path.js";
import { Filters } from "./filters.js";
import { SenderIndex } from "./search.js";
import { isOwn, type Sender } from "./station.js";
import { type HopStations, stationsOf } from "./stations.js";

/** A sender that brings less leaves a threshold as it is printed: 0.0004 dB. I/N. */
const FELT_DB = -40;

/** With the terms that they were worked out with: a network may state others while its hops stay the same. */
const known = new WeakMap<Hop, { readonly terms: string; readonly stations: HopStations }>();
const twins = new WeakMap<Hop, Hop>();

/** A hop and its like in another state of the design, with the same terms of interference: what is worked out of one is of both. */
export function noteAlike(one: Hop, other: Hop): void {
  twins.set(other, one);
}

/** Hops at whose receivers any sender of some hops can be felt; without those hops themselves. */
export function feltBy(design: Design, names: ReadonlySet<string>): Set<string> {
  const filters = new Filters();
  const senders = [...names].flatMap((name) => stationsAt(design, name)?.senders ?? []);
  const felt = new Set<string>();
  if (senders.length === 0) return felt;
  const index = indexOf(senders, design, filters);
  for (const name of design.hops.keys()) {
    if (names.has(name)) continue;
    const receivers = stationsAt(design, name)?.receivers ?? [];
    if (receivers.some((receiver) => index.reaches(receiver, FELT_DB))) felt.add(name);
  }
  return felt;
}

/** Hops whose senders count at the receivers of some hops; without those hops themselves. */
export function heardBy(design: Design, names: ReadonlySet<string>): Set<string> {
  const filters = new Filters();
  const index = indexOf(
    [...design.hops.keys()].flatMap((name) => stationsAt(design, name)?.senders ?? []),
    design,
    filters,
  );
  const heard = new Set<string>();
  for (const name of names)
    for (const receiver of stationsAt(design, name)?.receivers ?? []) {
      const { entries, coLocated } = index.find(receiver);
      for (const { of } of [...entries, ...coLocated]) {
        if (isOwn(of) && !names.has(of.hop)) heard.add(of.hop);
      }
    }
  return heard;
}

function indexOf(senders: readonly Sender[], { interference = {} }: Design, filters: Filters): SenderIndex {
  const { shortTermPercent, seaLevelN } = pathTermsOf(interference);
  return new SenderIndex(
    Cells.of(senders),
    filters,
    shortTermPercent,
    seaLevelN,
    interference.searchDistanceM,
  );
}

function stationsAt(design: Design, name: string): HopStations | undefined {
  const hop = design.hops.get(name);
  if (hop === undefined) return undefined;
  const like = twins.get(hop) ?? hop;
  const { interference = NO_TERMS } = design;
  const terms = wordsOf(interference);
  let found = known.get(like);
  if (found?.terms !== terms) {
    const around = {
      terms: interference,
      atSite: () => undefined,
      // A pattern in a file is not read for it: without one the reference pattern stands in.
      patternOf: ({ pattern }: Antenna) => pattern,
    };
    found = { terms, stations: stationsOf(hop, { geometry: levelGeometry(hop) }, around) };
    known.set(like, found);
  }
  return found.stations;
}

const NO_TERMS: InterferenceTerms = {};
const termsWords = new WeakMap<InterferenceTerms, string>();

/** Equal for equal terms; of the same object made once, since every hop asks. */
function wordsOf(terms: InterferenceTerms): string {
  let words = termsWords.get(terms);
  if (words === undefined) termsWords.set(terms, (words = JSON.stringify(terms)));
  return words;
}

/** Where the antennas look, all of it at one height. */
function levelGeometry({ ends }: Hop): readonly [EndGeometry, EndGeometry] | undefined {
  const [from, to] = ends.map(({ site }) => site.position);
  if (from === undefined || to === undefined) return undefined;
  if (
    ![from, to].every(
      ({ latitudeDeg, longitudeDeg }) => Math.abs(latitudeDeg) <= 90 && Number.isFinite(longitudeDeg),
    )
  )
    return undefined;
  const { azimuthFromDeg, azimuthToDeg } = inverse({ from, to });
  const at = (index: 0 | 1, azimuthDeg: number): EndGeometry => ({
    site: ends[index].site.name,
    groundM: 0,
    groundFrom: "design",
    antennaHeightM: ends[index].antennaHeightM ?? 0,
    azimuthDeg,
    elevationDeg: 0,
  });
  return [at(0, azimuthFromDeg), at(1, azimuthToDeg)];
}
