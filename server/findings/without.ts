/** A design as if something had failed: a hop, a site, a card. What it takes with it, and what that does to demands. */
import type { DesignModel } from "../../language/model/design-model.js";
import { TakenOut } from "../../language/model/taken-out.js";
import { idleHops } from "../../shared/demands/failure-effects.js";
import type { DemandResult, DemandsResult, FailureResult } from "../../shared/demands/result.js";
import { address } from "../../shared/design/address.js";
import type { Demand } from "../../shared/design/demand.js";
import { viewWords } from "../../shared/design/state.js";
import { cardHops } from "../../shared/equipment/card-hops.js";
import { sitePlans } from "../../shared/equipment/site-plan.js";
import { nearest } from "../../shared/format/nearest.js";
import { acceptanceUnused } from "../../shared/rules/acceptance-unused.js";
import { hopCarriesNothing } from "../../shared/rules/demands/hop-carries-nothing.js";
import { siteUnused } from "../../shared/rules/site-unused.js";
import { CommandError } from "../command-error.js";
import type { DesignSession, Pace } from "../session/design-session.js";
import type { PlacedFinding } from "./placed.js";
import { stagesOf, type Times } from "./stages.js";

interface TakenElement {
  readonly kind: "hop" | "site" | "card";
  /** Of a card `KELD/A/3`: site, chassis, slot. */
  readonly name: string;
  /** Hops that do not stand without it. */
  readonly hops: readonly string[];
  /** Hops with units on other cards too: they are taken as standing, though they carry less or are unprotected. */
  readonly partly: readonly string[];
}

export interface Without extends TakenElement {
  /** Demands that have no route then, those that begin or end at the site included. */
  readonly lost: readonly string[];
  /** Those that go on over other hops. */
  readonly moved: readonly {
    readonly demand: string;
    readonly was: readonly string[];
    /** Undefined: it is not known. */
    readonly is?: readonly string[];
  }[];
  /** Hops that carry less than what is committed on them then. */
  readonly overloaded: FailureResult["overloaded"];
  /** Those that have a route still, and no longer what else they ask of routes; they may have moved too. */
  readonly weakened: readonly { readonly demand: string; readonly loses: readonly Protection[] }[];
  /** Those that have it still, over other hops or from another site. */
  readonly shifted: readonly { readonly demand: string; readonly has: readonly Protection[] }[];
  /** Those that go on, and miss then what they met. */
  readonly missing: readonly { readonly demand: string; readonly misses: readonly Missed[] }[];
  /** Demands that stay as they are. */
  readonly untouched: number;
}

export type Protection = "second route" | "clock" | "second clock feed";
type Missed = keyof DemandResult["verdicts"];

/** @throws CommandError when no design has it, or several have */
export function holdingElement(models: readonly DesignModel[], name: string): DesignModel {
  const holding = models.filter((model) => findElement(model, name) !== undefined);
  const [model] = holding;
  if (holding.length > 1)
    throw new CommandError(
      `${name}: ${holding.length} designs here have something of this name; name the folder of one of them`,
    );
  if (model) return model;
  const all = models.flatMap((one) => [
    ...hopsIn(one),
    ...one.names("site"),
    ...cardsIn(one).map((card) => card.name),
  ]);
  const meant = nearest(nameIn(name), all);
  throw new CommandError(
    `${name}: there is no hop, no site and no card of this name${meant === undefined ? "; a card is named SITE/CHASSIS/SLOT" : `; did you mean ${meant}?`}`,
  );
}

/** Takes it out of the model, for good. @returns what that does when all else is as planned */
export async function takenOut(
  session: DesignSession,
  name: string,
  { times = {}, pace }: { readonly times?: Times; readonly pace?: Pace },
): Promise<Taken> {
  const { model, today } = session;
  const builtOnly = times.state === "built" ? true : undefined;
  model.setView({ on: stagesOf(model, today, times).at(-1)!, builtOnly });
  const element = findElement(model, name);
  if (element === undefined || element.hops.every((hop) => !model.standsHop(hop)))
    throw new CommandError(`${name}: ${nothingToTake(element)} ${viewWords(model.view)}`);
  const { goingOn, ...effect } =
    model.names("demand").length === 0 ? NO_EFFECT : await effectOf(session, element, pace);
  const { hops } = model.design();
  const sites = element.hops.flatMap((one) => hops.get(one)?.ends.map(({ site }) => site.name) ?? []);
  model.takeOut(new TakenOut(element.hops, goingOn));
  return { ...element, ...effect, sites };
}

function nothingToTake(element: TakenElement | undefined): string {
  if (element?.partly.length) return "every hop on it has units elsewhere too, so that none falls,";
  return element?.kind === "site" ? "no hop ends there" : "it does not stand";
}

const NOTHING_LEFT = { weakened: [], shifted: [], missing: [], untouched: 0 } as const;

/** With the routes that demands take in the design that is left, and what they still have beside them. */
export function withRoutes({ before, sites: _, ...out }: Taken, session: DesignSession): Without {
  const now = session.demands();
  if (before === undefined || now === undefined) return { ...out, ...NOTHING_LEFT };
  const lost = new Set(out.lost);
  const going = [...before.demands].flatMap(([demand, was]) => {
    const is = now.demands.get(demand);
    return lost.has(demand) || is === undefined ? [] : [{ demand, was, is }];
  });
  const weakened = going.flatMap(({ demand, was, is }) => {
    const left = protectionsOf(is);
    const loses = [...protectionsOf(was).keys()].filter((one) => !left.has(one));
    return loses.length === 0 ? [] : [{ demand, loses }];
  });
  const shifted = going.flatMap(({ demand, was, is }) => {
    const left = protectionsOf(is);
    const has = [...protectionsOf(was)].flatMap(([one, by]) =>
      left.has(one) && left.get(one) !== by ? one : [],
    );
    return has.length === 0 ? [] : [{ demand, has }];
  });
  const missing = going.flatMap(({ demand, was, is }) => {
    const asked = Object.keys(is.verdicts) as Missed[];
    // What it loses of its second route is told by that.
    const misses = asked.filter(
      (one) => one !== "secondRoute" && is.verdicts[one] === "missed" && was.verdicts[one] !== "missed",
    );
    return misses.length === 0 ? [] : [{ demand, misses }];
  });
  const touched = new Set([
    ...lost,
    ...[...out.moved, ...weakened, ...shifted, ...missing].map(({ demand }) => demand),
  ]);
  return {
    ...out,
    moved: out.moved.map((one) => ({ ...one, is: one.is ?? now.demands.get(one.demand)?.route?.hops })),
    weakened,
    shifted,
    missing,
    untouched: before.demands.size - touched.size,
  };
}

/** Of what it asks, and over or from what. */
function protectionsOf({ demand, second, clock }: DemandResult): ReadonlyMap<Protection, string> {
  const found = new Map<Protection, string>();
  if (demand.secondRoute !== undefined && second !== undefined) found.set("second route", second.hops.join());
  if (demand.clock !== undefined && clock !== undefined) found.set("clock", `${clock.source} ${clock.hops}`);
  if (demand.clock === "two-feeds" && clock?.secondHops !== undefined)
    found.set("second clock feed", String(clock.secondHops));
  return found;
}

/**
 * Of what remains: that a hop has nothing to carry, a site no hop or an acceptance nothing to excuse while something is
 * away is no finding.
 */
export function ofTrial<F extends Pick<PlacedFinding, "rule" | "key" | "hop">>(
  findings: readonly F[],
  { before, sites }: Taken,
): readonly F[] {
  const idle = before && idleHops(before);
  const unused = new Set(sites.map((site) => address("site", site)));
  return findings.filter(({ rule, key, hop }) => {
    if (rule === acceptanceUnused.id) return false;
    if (rule === hopCarriesNothing.id) return idle === undefined || idle.has(hop!);
    return rule !== siteUnused.id || !unused.has(key.slice(rule.length + 1));
  });
}

/** Before it is known what remains. */
export interface Taken extends Omit<Without, keyof typeof NOTHING_LEFT> {
  /** Demands as they are with it; undefined: none are judged. */
  readonly before?: DemandsResult;
  /** At the ends of what is taken out. */
  readonly sites: readonly string[];
}

interface Effect extends Omit<Taken, keyof TakenElement | "sites"> {
  /** How demands are routed in what is left, other than they state. */
  readonly goingOn: ReadonlyMap<string, Demand | undefined>;
}

const NO_EFFECT: Effect = { lost: [], moved: [], overloaded: [], goingOn: new Map() };

async function effectOf(
  session: DesignSession,
  { kind, name, hops }: TakenElement,
  pace: Pace | undefined,
): Promise<Effect> {
  await session.update(pace);
  const result = session.demands();
  if (result === undefined) return NO_EFFECT;
  // Of a card that takes one hop the failure of that says as much.
  const failed = kind === "card" && hops.length === 1 ? { kind: "hop", name: hops[0]! } : { kind, name };
  const failure = result.failures.find(
    ({ element }) => element.kind === failed.kind && element.name === failed.name,
  );
  const { lost = [], moved = [], overloaded = [] } = failure ?? {};
  const gone = new Set(hops);
  const told = moved.map((demand) => {
    const { route, second } = result.demands.get(demand)!;
    return { demand, was: route?.hops ?? [], is: spared(second, gone) };
  });
  const demandOf = (name: string) => result.demands.get(name)!.demand;
  // Without rerouting nothing is searched for what is lost; what has a second route takes that, not the shortest.
  const isRerouting = session.model.design().traffic?.rerouting !== "none";
  const goingOn = new Map<string, Demand | undefined>([
    ...(isRerouting ? [] : lost.map((name) => [name, undefined] as const)),
    ...told.flatMap(({ demand, is }) =>
      is === undefined ? [] : [[demand, over(demandOf(demand), is)] as const],
    ),
  ]);
  return {
    lost,
    moved: told,
    overloaded,
    before: result,
    goingOn,
  };
}

/** Another second route is wanted still, and told where there is none left. */
function over({ secondRoute, ...demand }: Demand, hops: readonly string[]): Demand {
  const via = hops.map((hop) => ({ hop }));
  return { ...demand, via, ...(secondRoute && { secondRoute: { disjoint: secondRoute.disjoint } }) };
}

/** A second route that nothing is taken of. */
function spared(second: DemandResult["second"], gone: ReadonlySet<string>): readonly string[] | undefined {
  return second?.hops.some((hop) => gone.has(hop)) ? undefined : second?.hops;
}

/** A hop before a site before a card; with its kind before it (`site KELD`) that alone. */
function findElement(model: DesignModel, asked: string): TakenElement | undefined {
  const name = nameIn(asked);
  const only = name === asked ? undefined : asked.slice(0, asked.indexOf(" "));
  const is = (kind: TakenElement["kind"]) => only === undefined || only === kind;
  if (is("hop") && hopsIn(model).includes(name)) return { kind: "hop", name, hops: [name], partly: [] };
  if (is("site") && model.declarations(`site ${name}`).length > 0) {
    const hops = [...model.design().hops.values()].filter(({ ends }) =>
      ends.some(({ site }) => site.name === name),
    );
    return { kind: "site", name, hops: hops.map((hop) => hop.name), partly: [] };
  }
  if (!is("card")) return undefined;
  const cards = cardsIn(model);
  const card =
    cards.find((one) => one.name === name) ?? onlyOne(cards.filter((one) => inShort(one.name) === name));
  return card && { kind: "card", ...card };
}

function nameIn(asked: string): string {
  return asked.replace(/^(hop|site|card) /, "");
}

/** `KELD/3` for `KELD/1/3`: enough where a site has one chassis. */
function inShort(card: string): string {
  const [site, , slot] = card.split("/");
  return `${site}/${slot}`;
}

function onlyOne<T>(all: readonly T[]): T | undefined {
  return all.length === 1 ? all[0] : undefined;
}

function hopsIn(model: DesignModel): readonly string[] {
  return model.names("hop").filter((name) => !model.declarations(`hop ${name}`)[0]?.template);
}

function cardsIn(model: DesignModel): ReturnType<typeof cardHops> {
  return [...sitePlans(model.design()).values()].flatMap(cardHops);
}
