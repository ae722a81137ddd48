/** Figures beside the text they follow from: lengths, azimuths, levels, margins, frequencies. */

import type { EndGeometry } from "../../shared/evaluate/account/path-result.js";
import { availabilityBounded, ESTIMATE_REMARK, yearlyOut } from "../../shared/format/bounds.js";
import {
  availability,
  bitRate,
  decibels,
  degrees,
  fixed,
  frequency,
  kilometres,
  metres,
  trimmed,
} from "../../shared/format/numbers.js";
import { carriersOf } from "../../shared/rules/carriers.js";
import { weakerDirection } from "../../shared/rules/judged-modes.js";
import {
  availabilityHeld,
  type Held,
  latencyHeld,
  loadShare,
  loadWords,
  NONE,
  routeWords,
} from "../../shared/words/demand-figures.js";
import { routeProblemWords, someOf } from "../../shared/words/demands.js";
import { degradationOrigin, isRaised } from "../../shared/words/interference.js";
import { type Fact, factNamed, factsNamed, wordOf } from "../facts/fact.js";
import type { DesignModel } from "../model/design-model.js";
import { declaredName } from "../model/source-file.js";
import { END } from "../schema/index.js";
import { carriesWords } from "./hover-demand.js";
import { hopsUsing } from "./occurrences.js";
import type { Carried, JudgedHop, Results } from "./results.js";
import { overlap, type TextRange } from "./text-range.js";
import { wordAtom } from "./walk.js";

type HintKind =
  | "distance"
  | "margin"
  | "availability"
  | "azimuth"
  | "level"
  | "frequency"
  | "ground"
  | "demand";

export interface InlayHint {
  /** The hint stands behind this offset, a space before it. */
  readonly offset: number;
  readonly text: string;
  readonly tooltip: string;
  readonly kind: HintKind;
}

/** Hints of a part of a file, in the order of the text. Figures that are not known have none. */
export function inlayHints(
  model: DesignModel,
  path: string,
  range: TextRange,
  results: Results,
  carried: Carried = () => undefined,
): readonly InlayHint[] {
  const hints: InlayHint[] = [];
  for (const fact of model.file(path)?.facts ?? []) {
    if (!overlap(fact.statement, range)) continue;
    const name = declaredName(fact);
    if (name === undefined || model.declarations(`${fact.property.name} ${name}`)[0]?.fact !== fact) continue;
    if (fact.property.name === "hop")
      hints.push(...hopHints(fact, results(name)), ...loadHint(fact, name, carried));
    if (fact.property.name === "demand") hints.push(...demandHints(fact, name, carried));
    if (fact.property.name === "site") hints.push(...siteHints(fact, name, model, results));
  }
  return hints
    .filter(({ offset }) => range.start <= offset && offset <= range.end)
    .sort((a, b) => a.offset - b.offset);
}

function hopHints(fact: Fact, judged: JudgedHop | undefined): InlayHint[] {
  if (!judged) return [];
  const ends = fact.facts.filter((one) => one.property === END);
  return [
    ...headline(fact, judged),
    ...channelHint(fact, judged),
    ...ends.flatMap((end) => endHints(end, judged)),
  ];
}

function headline(fact: Fact, { hop, result }: JudgedHop): InlayHint[] {
  const hints: InlayHint[] = [];
  const offset = fact.statement.atoms.at(-1)!.end;
  const add = (kind: HintKind, text: string, tooltip: string) => hints.push({ offset, kind, text, tooltip });
  if (result.distanceM !== undefined) {
    add(
      "distance",
      `→ ${kilometres(result.distanceM)}`,
      `Length between ${result.ends.join(" and ")}, on the ellipsoid.`,
    );
  }
  const weaker = weakerDirection(hop, result);
  if (weaker) {
    const { direction, mode } = weaker;
    const raised = isRaised(mode)
      ? ` Interference raises the threshold by ${decibels(mode.degradationDb ?? 0)}, ${degradationOrigin(mode)}.`
      : "";
    const tooltip = `Flat fade margin ${decibels(mode.fadeMarginDb)} from ${direction.from} to ${direction.to} with ${mode.modulation}, the weaker direction.${raised}`;
    add("margin", `margin ${fixed(mode.fadeMarginDb, 0)} dB`, tooltip);
  }
  const found = result.availability;
  if (found) {
    const asked =
      found.objectivePercent === undefined
        ? ""
        : ` The objective asks ${availability(found.objectivePercent)}.`;
    const remark = found.atLeastPercent === undefined ? "" : ` ${ESTIMATE_REMARK}`;
    const tooltip = `Both directions, propagation only, with ${found.modulation}: ${yearlyOut(found, found.objectivePercent)} out.${asked}${remark}`;
    add("availability", availabilityBounded(found, found.objectivePercent), tooltip);
  }
  return hints;
}

function channelHint(fact: Fact, { hop }: JudgedHop): InlayHint[] {
  const carriers = hop.ends.map((end) => carriersOf(hop, end));
  const stated = factsNamed(fact.facts, "channel");
  // Where one of several has no frequencies, it is not known which of them are whose.
  const known = stated.length <= 1 + (hop.furtherChannels ?? []).length ? stated : [];
  return known.flatMap((channel, index): InlayHint[] => {
    const [first, second] = carriers.map((ofEnd) => ofEnd.find((one) => one.channel === index));
    if (!first || !second) return [];
    return [
      {
        offset: channel.statement.end,
        kind: "frequency",
        text: `${trimmed(first.frequencyHz / 1e9, 6)} / ${frequency(second.frequencyHz)}`,
        tooltip: `${first.words}, ${second.words}.`,
      },
    ];
  });
}

function endHints(end: Fact, { hop, result }: JudgedHop): InlayHint[] {
  const site = wordOf(end, "site");
  const hints: InlayHint[] = [];
  const antenna = factNamed(end.facts, "antenna");
  const offset = antenna ? antenna.statement.end : wordAtom(end).end;
  const geometry = result.geometry?.find((one) => one.site === site);
  if (geometry) {
    const tooltip = `Bearing clockwise from true north; the ray leaves at ${degrees(geometry.elevationDeg)} elevation.`;
    hints.push({ offset, kind: "azimuth", text: `az ${fixed(geometry.azimuthDeg, 1)}°`, tooltip });
  }
  const incoming = result.directions.find((one) => one.to === site);
  if (incoming) {
    const mode = incoming.modes.at(-1)?.modulation;
    const tooltip = `Received from ${incoming.from}${mode ? ` with ${mode}, the highest mode` : ""}, median: the level to expect at line-up.`;
    hints.push({ offset, kind: "level", text: `${minus(fixed(incoming.receivedLevelDbm, 1))} dBm`, tooltip });
  }
  const transmits = factNamed(end.facts, "transmits");
  const hz = hop.ends.find((one) => one.site.name === site)?.transmitFrequencyHz;
  // Where the text states the frequency itself there is nothing to add.
  if (transmits && hz !== undefined && wordOf(transmits, "value") !== undefined) {
    const tooltip = `Centre frequency of the ${wordOf(transmits, "value")} half of the channel.`;
    hints.push({ offset: transmits.statement.end, kind: "frequency", text: frequency(hz), tooltip });
  }
  return hints;
}

/** How full the hop is, with all that is committed on it. */
function loadHint(fact: Fact, name: string, carried: Carried): InlayHint[] {
  const load = carried()?.hops.get(name);
  if (load === undefined || load.demands.length === 0) return [];
  const share = loadWords(loadShare(load.committedBps, load.carriedBps));
  const text = share === NONE ? bitRate(load.committedBps) : `load ${share}`;
  const sentence = carriesWords(load);
  return [
    {
      offset: fact.statement.atoms.at(-1)!.end,
      kind: "demand",
      text,
      tooltip: `${sentence[0]!.toUpperCase()}${sentence.slice(1)}: ${someOf(load.demands)}.`,
    },
  ];
}

/** Hops, availability and latency end to end, beside the name. */
function demandHints(fact: Fact, name: string, carried: Carried): InlayHint[] {
  const result = carried()?.demands.get(name);
  if (result === undefined) return [];
  const offset = fact.statement.atoms.at(-1)!.end;
  const hint = (text: string, tooltip: string): InlayHint => ({ offset, kind: "demand", text, tooltip });
  const { route, problem, demand } = result;
  if (route === undefined)
    return problem ? [hint("no route", `No route: ${routeProblemWords(problem, demand)}.`)] : [];
  const [available, late] = [availabilityHeld(result), latencyHeld(result)];
  return [
    hint(`→ ${route.hops.length} ${route.hops.length === 1 ? "hop" : "hops"}`, `Over ${routeWords(route)}.`),
    ...(available && available.found !== NONE
      ? [hint(available.found, `Available end to end, propagation only${askedWords(available)}.`)]
      : []),
    ...(late ? [hint(late.found, `Latency one way${askedWords(late)}.`)] : []),
  ];
}

function askedWords({ asked, verdict }: Held): string {
  return asked === undefined ? "" : `; ${asked} is asked${verdict === undefined ? "" : `, ${verdict}`}`;
}

/** The ground level that the terrain gives, where the site states none. */
function siteHints(fact: Fact, name: string, model: DesignModel, results: Results): InlayHint[] {
  const at = factNamed(fact.facts, "at");
  if (!at || factNamed(fact.facts, "ground")) return [];
  const geometry = terrainGround(name, model, results);
  if (!geometry) return [];
  const tooltip = `Ground level above sea level after the ${geometry.groundFrom}; \`ground\` states another.`;
  return [{ offset: at.statement.end, kind: "ground", text: `ground ${metres(geometry.groundM)}`, tooltip }];
}

function terrainGround(site: string, model: DesignModel, results: Results): EndGeometry | undefined {
  for (const hop of hopsUsing({ kind: "site", name: site }, model)) {
    const found = results(hop)?.result.geometry?.find((one) => one.site === site);
    if (found && found.groundFrom !== "design") return found;
  }
  return undefined;
}

/** A hyphen beside a number reads as a dash. */
function minus(text: string): string {
  return text.replace("-", "−");
}
