/** A hop: its own facts, the defaults behind them, and the things they name. */
import type { Climate } from "../../shared/design/climate.js";
import type {
  FurtherAntenna,
  Hop,
  HopEnd,
  Mounting,
  Obstacle,
  Surface,
  SurfaceKind,
  UnformedHop,
} from "../../shared/design/design.js";
import { spanOf } from "../../shared/design/state.js";
import { FURTHER } from "../../shared/equipment/stands.js";
import { inverse } from "../../shared/geodesy/geodesic.js";
import { asksAnything } from "../../shared/rules/asked.js";
import { ADD_AN_END, unformedWords } from "../../shared/rules/not-judged.js";
import { type Fact, factNamed, factsNamed, quantityOf, type TextProblem, wordOf } from "../facts/fact.js";
import { stateOf } from "../facts/states.js";
import { resolvePath } from "../model/path.js";
import { type Declaration, nameRange } from "../model/source-file.js";
import { END } from "../schema/index.js";
import { head } from "../syntax/tree.js";
import { asBuiltOf, measuredOf } from "./as-built.js";
import { climateOf } from "./catalogue.js";
import { type ChannelInUse, channelOf } from "./channel.js";
import { installationOf } from "./equipment.js";
import { fieldsOf } from "./fields.js";
import { merge } from "./inherit.js";
import { powerControlOf } from "./interference.js";
import type { Lookup, ResolveProblem } from "./lookup.js";
import { modesOf } from "./modes.js";
import { acceptancesOf } from "./policy.js";
import { named } from "./stated.js";
import { unusableIn } from "./unusable.js";

export interface ResolvedHop {
  /** Missing while the hop has not two different ends that exist. */
  readonly hop?: Hop;
  /** In its place, where it lacks an end and its objective asks something. */
  readonly unformed?: UnformedHop;
  /** Offsets count from the start of the file as it was when this was resolved. */
  readonly problems: readonly ResolveProblem[];
  /** Where the hop's statement began then: what moved it since moved its problems with it. */
  readonly from: number;
}

export function resolveHop(entry: Declaration, lookup: Lookup): ResolvedHop {
  const problems: ResolveProblem[] = [];
  const report = (problem: TextProblem) => problems.push({ file: entry.file, problem });
  const facts = mergeHop(entry.fact.facts, lookup.defaults("hop"));
  const stated = fieldsOf("hop", facts, lookup);
  const { radio, objective } = stated;
  const [channelFact, ...furtherFacts] = factsNamed(facts, "channel");
  const channel = channelOf(entry, channelFact, radio, lookup, report);
  const further = furtherFacts.flatMap((fact) => channelOf(entry, fact, radio, lookup, report) ?? []);
  const common = arrangementOf(facts) ?? { name: "1+0" };
  const accepts = acceptancesOf(facts);
  const policy = lookup.policy();
  const siteNames = facts.filter((fact) => fact.property === END).map((fact) => wordOf(fact, "site") ?? "");
  const unformed: UnformedHop | undefined =
    siteNames.length < 2 && objective && asksAnything(objective)
      ? { name: entry.name, arrangement: common, objective, accepts, policy, siteNames }
      : undefined;
  if (unformed) return { unformed, problems, from: entry.fact.statement.start };
  const ends = endsOf(entry, facts, channel?.halves, lookup, report);
  const modes = modesOf(entry, facts, radio, channel?.channel.bandwidthHz, report);
  if (!ends) return { problems, from: entry.fact.statement.start };
  // What neither end is built as says nothing of the hop.
  const arrangement = ends.every((end) => end.arrangement) ? ends[0].arrangement! : common;
  const climate = factNamed(facts, "climate");
  const unusable = [
    ...unusableIn(facts, entry.fact.facts, lookup),
    ...facts
      .filter((fact) => fact.property === END)
      .flatMap((fact) =>
        unusableIn(merge(fact.facts, lookup.defaults("end")), fact.facts, lookup, wordOf(fact, "site")),
      ),
    ...ends.flatMap(({ site }) => (site.positionUnreadable ? { fact: "at", site: site.name } : [])),
    // Told at the hop, wherever it is stated.
    ...(radio !== undefined && modes.length === 0 && statesModes(facts) ? [{ fact: "mode" }] : []),
  ];
  const ownState = stateOf(entry.fact);
  const ofSites = ownState === undefined ? lastToStand(ends) : undefined;
  const survey = surveyOf(factNamed(facts, "survey"), ends, report);
  const surveyFile = wordOf(survey, "file");
  const hop: Hop = {
    ...named(entry),
    ...stated,
    state: ownState ?? ofSites,
    ...(ofSites && { stateFromSites: true as const }),
    ends,
    channel: channel?.open ? undefined : channel?.channel,
    openChannel: channel?.open,
    channelUnknown: channel === undefined && channelFact !== undefined ? true : undefined,
    unusable: unusable.length > 0 ? unusable : undefined,
    arrangement,
    modes,
    climate: climate ? climateOf(climate.facts, lookup.climate(), lookup) : lookup.climate(),
    ownClimate: climate && (Object.keys(climateOf(climate.facts, {}, lookup)) as (keyof Climate)[]),
    furtherChannels:
      channel === undefined || channel.open || further.length === 0
        ? undefined
        : further
            .filter(({ open }) => open === undefined)
            .map((one) => ({
              ...one.channel,
              separationHz: Math.abs(one.halves.lowHz - channel.halves.lowHz),
            })),
    surfaces: surfacesOf(facts, ends, report),
    obstacles: obstaclesOf(facts, ends, report),
    surveyFile: surveyFile === undefined ? undefined : resolvePath(entry.file, surveyFile),
    surveyReversed: wordOf(survey, "from") === ends[1].site.name || undefined,
    surveySource: wordOf(survey, "source") as Hop["surveySource"],
    bridgeGapsM: lookup.bridgeGapsM(),
    measured: measuredAtEnds(facts, ends, report),
    accepts,
    policy,
  };
  return { hop, problems, from: entry.fact.statement.start };
}

/** A hop that says nothing of itself stands with the later of its sites. */
function lastToStand(ends: readonly [HopEnd, HopEnd]): Hop["state"] {
  const states = ends.flatMap(({ site }) => site.state ?? []);
  return states.toSorted((a, b) => (spanOf(a).from < spanOf(b).from ? 1 : -1))[0];
}

function statesModes(facts: readonly Fact[]): boolean {
  const stated = factNamed(facts, "mode") ?? factNamed(facts, "modes");
  return stated !== undefined && quantityOf(stated, "bandwidth") !== undefined;
}

/** A fixed mode in the hop and an adaptive range in the defaults are two answers to one question. */
function mergeHop(own: readonly Fact[], defaults: readonly Fact[]): readonly Fact[] {
  const states = (name: string) => factNamed(own, name) !== undefined;
  if (!states("mode") && !states("modes")) return merge(own, defaults);
  return merge(
    own,
    defaults.filter((fact) => fact.property.name !== "mode" && fact.property.name !== "modes"),
  );
}

function endsOf(
  entry: Declaration,
  facts: readonly Fact[],
  halves: ChannelInUse["halves"] | undefined,
  lookup: Lookup,
  report: (problem: TextProblem) => void,
): readonly [HopEnd, HopEnd] | undefined {
  const ends = facts.filter((fact) => fact.property === END);
  const names = ends.map((fact) => wordOf(fact, "site"));
  const problem = (
    at: { readonly start: number; readonly end: number },
    message: string,
    help: string,
    severity: "error" | "info" = "error",
  ) => report({ rule: "hop-ends", severity, start: at.start, end: at.end, message, help });
  if (ends.length < 2) {
    const has = unformedWords(
      entry.name,
      names.flatMap((name) => name ?? []),
    );
    problem(nameRange(entry), `${has}; a hop has two`, ADD_AN_END, "info");
    return undefined;
  }
  if (ends.length > 2) {
    problem(
      head(ends[2]!.statement),
      `${entry.name} has ${ends.length} ends; a hop has two`,
      "remove one, or make it a hop of its own",
    );
    return undefined;
  }
  if (names[0] === names[1]) {
    problem(
      head(ends[1]!.statement),
      `both ends of ${entry.name} are ${names[0]}`,
      "name the other site here",
    );
    return undefined;
  }
  const [first, second] = ends.map((fact) => endOf(fact, facts, halves, lookup));
  return first && second ? [first, second] : undefined;
}

function endOf(
  fact: Fact,
  ofHop: readonly Fact[],
  halves: ChannelInUse["halves"] | undefined,
  lookup: Lookup,
): HopEnd | undefined {
  const site = lookup.site(wordOf(fact, "site") ?? "");
  if (!site) return undefined;
  const defaults = lookup.defaults("end");
  const facts = merge(fact.facts, defaults);
  const transmits = factNamed(facts, "transmits");
  const half = wordOf(transmits, "value") as "high" | "low" | undefined;
  const radio = lookup.radio(wordOf(factNamed(ofHop, "radio"), "radio") ?? "");
  const powerControl = powerControlOf(fact.facts, defaults, ofHop, radio);
  return {
    site,
    ...fieldsOf("end", facts, lookup),
    // A height stated at the end wins over one that comes with the default antenna.
    antennaHeightM:
      quantityOf(factNamed(fact.facts, "antenna"), "at") ??
      quantityOf(factNamed(facts, "height"), "value") ??
      quantityOf(factNamed(defaults, "antenna"), "at"),
    arrangement: arrangementOf(facts),
    asBuilt: asBuiltOf(fact.facts, lookup),
    armsExchanged: factNamed(facts, "arms") === undefined ? undefined : true,
    further: furtherOf(facts, lookup),
    installation: installationOf(facts, lookup),
    ...(powerControl && { powerControl }),
    transmits: half,
    transmitFrequencyHz:
      quantityOf(transmits, "value") ??
      (half && halves ? (half === "high" ? halves.highHz : halves.lowHz) : undefined),
  };
}

function arrangementOf(facts: readonly Fact[]): HopEnd["arrangement"] {
  const name = wordOf(factNamed(facts, "arrangement"), "value");
  return name === undefined ? undefined : { name };
}

/** Up to the last that is stated; undefined: none is. */
function furtherOf(facts: readonly Fact[], lookup: Lookup): readonly FurtherAntenna[] | undefined {
  const further = FURTHER.map((place): FurtherAntenna | undefined => {
    const antenna = factNamed(facts, `${place}-antenna`);
    const coupler = factNamed(facts, `${place}-coupler`);
    const feeder = factNamed(facts, `${place}-feeder`);
    if (antenna === undefined && coupler === undefined && feeder === undefined) return undefined;
    return {
      antenna: antenna && lookup.antenna(wordOf(antenna, "antenna") ?? ""),
      heightM: quantityOf(antenna, "at"),
      coupler: coupler && lookup.coupler(wordOf(coupler, "coupler") ?? ""),
      mounting: wordOf(coupler, "mounting") as Mounting | undefined,
      ...(feeder && {
        feeder: lookup.feeder(wordOf(feeder, "feeder") ?? ""),
        feederLengthM: quantityOf(feeder, "length"),
      }),
    };
  });
  const last = further.findLastIndex((one) => one !== undefined);
  return last < 0 ? undefined : further.slice(0, last + 1).map((one) => one ?? {});
}

/** Distances count from the first end in the design, whichever end the text counts from. */
function obstaclesOf(
  facts: readonly Fact[],
  ends: readonly [HopEnd, HopEnd],
  report: (problem: TextProblem) => void,
): readonly Obstacle[] {
  return factsNamed(facts, "obstacle").flatMap((fact) => {
    const heightM = quantityOf(fact, "height");
    const statedM = quantityOf(fact, "distance");
    if (heightM === undefined || statedM === undefined) return [];
    const distanceM = fromFirstEnd(fact, statedM, ends, report);
    return distanceM === undefined ? [] : [{ title: wordOf(fact, "title"), heightM, distanceM }];
  });
}

/** A stretch is told from its near end to its far one, as seen from the first end. */
function surfacesOf(
  facts: readonly Fact[],
  ends: readonly [HopEnd, HopEnd],
  report: (problem: TextProblem) => void,
): readonly Surface[] | undefined {
  const surfaces = factsNamed(facts, "surface").flatMap((fact): Surface[] => {
    const kind = wordOf(fact, "kind") as SurfaceKind | undefined;
    const start = quantityOf(fact, "start");
    const end = quantityOf(fact, "end");
    if (kind === undefined || start === undefined || end === undefined) return [];
    const startM = fromFirstEnd(fact, start, ends, report);
    const endM = startM === undefined ? undefined : fromFirstEnd(fact, end, ends, report);
    if (startM === undefined || endM === undefined) return [];
    return [
      {
        kind,
        fromM: Math.min(startM, endM),
        toM: Math.max(startM, endM),
        heightM: quantityOf(fact, "level"),
      },
    ];
  });
  return surfaces.length === 0 ? undefined : surfaces;
}

/** A distance counted from the site that the fact names; undefined when it is no end, or the length is not known. */
function fromFirstEnd(
  fact: Fact,
  distanceM: number,
  ends: readonly [HopEnd, HopEnd],
  report: (problem: TextProblem) => void,
): number | undefined {
  const [first, second] = [ends[0].site, ends[1].site];
  const from = wordOf(fact, "from");
  if (from === undefined) return undefined;
  if (from === first.name) return distanceM;
  if (from === second.name) {
    if (!first.position || !second.position) return undefined;
    return inverse({ from: first.position, to: second.position }).distanceM - distanceM;
  }
  reportNoEnd(fact, ends, report);
  return undefined;
}

/** A survey that counts from elsewhere is of another path. */
function surveyOf(
  fact: Fact | undefined,
  ends: readonly [HopEnd, HopEnd],
  report: (problem: TextProblem) => void,
): Fact | undefined {
  const from = wordOf(fact, "from");
  if (!fact || from === undefined || ends.some(({ site }) => site.name === from)) return fact;
  reportNoEnd(fact, ends, report);
  return undefined;
}

/** A level that was read elsewhere is of another hop. */
function measuredAtEnds(
  facts: readonly Fact[],
  ends: readonly [HopEnd, HopEnd],
  report: (problem: TextProblem) => void,
): Hop["measured"] {
  const isEnd = (name: string) => ends.some(({ site }) => site.name === name);
  for (const fact of factsNamed(facts, "measured")) {
    const at = wordOf(fact, "at");
    if (at !== undefined && !isEnd(at)) reportNoEnd(fact, ends, report, "at");
  }
  return measuredOf(facts)?.map((one) => (one && isEnd(one.site) ? one : undefined));
}

function reportNoEnd(
  fact: Fact,
  [first, second]: readonly [HopEnd, HopEnd],
  report: (problem: TextProblem) => void,
  name = "from",
): void {
  const arg = fact.args.find(({ spec }) => spec.name === name)!;
  report({
    rule: "hop-ends",
    severity: "error",
    start: arg.start,
    end: arg.end,
    message: `${wordOf(fact, name)} is not an end of this hop; its ends are ${first.site.name} and ${second.site.name}`,
  });
}
