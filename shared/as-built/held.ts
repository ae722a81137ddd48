/** What was measured, held against what the design promises. */
import type { Measurement } from "../design/as-built.js";
import type { Hop } from "../design/design.js";
import type { HopResult } from "../evaluate/account/result.js";
import { type ExpectedLevel, type ExpectedMode, expectedLevels, levelWindowDb } from "./expected.js";
import { type SignatureCode, type Signatures, signaturesFitting, signaturesOf } from "./signatures.js";

/**
 * What a reading comes to. `replaced`: a later one is of the same. `before change`: the design promised another level
 * then. `not of the hop`: see `unlike`. `not known`: no level is computed there.
 */
export type ReadingVerdict =
  | "agrees"
  | "low"
  | "high"
  | "replaced"
  | "power control"
  | "before change"
  | "not of the hop"
  | "not known";

/** Why a reading is none of the hop: it has no such branch, carrier or mode, or several that it may be. */
export type UnlikeCode = "branch" | "sender" | "carrier" | "polarization" | "mode" | "several";

export interface HeldReading {
  /** Place among the measured lines of the hop, from 0. */
  readonly index: number;
  readonly measured: Measurement;
  readonly verdict: ReadingVerdict;
  readonly unlike?: UnlikeCode;
  readonly expected?: ExpectedLevel;
  /** Of `expected`. */
  readonly mode?: ExpectedMode;
  /** Promised less measured: positive where less arrives. */
  readonly lessDb?: number;
  /** Of a low one: what so much less may come from. */
  readonly signatures: readonly SignatureCode[];
  /** Of a low one: a reading that agrees, of the other direction, else of another branch here. */
  readonly agreeing?: { readonly of: "direction" | "branch"; readonly index: number };
  /** A reading of the same and of the same day, further up. */
  readonly sameAs?: number;
}

export interface HeldHopReadings {
  readonly windowDb: number;
  readonly signatures: Signatures;
  /** In the order of the text; those that cannot be read are left out. */
  readonly readings: readonly HeldReading[];
  /** Levels that nobody has measured in any mode, with the main unit sending; empty where nothing is measured at all. */
  readonly unmeasured: readonly ExpectedLevel[];
}

/** A prediction that moved by less is the same. */
export const CHANGED_DB = 0.5;
/** Levels that are the same on the page. */
const ALIKE_DB = 0.05;

const known = new WeakMap<HopResult, { readonly hop: Hop; readonly held: HeldHopReadings }>();

/** @returns undefined where nothing is measured */
export function heldReadings(hop: Hop, result: HopResult): HeldHopReadings | undefined {
  if (hop.measured === undefined) return undefined;
  let found = known.get(result);
  if (found?.hop !== hop) known.set(result, (found = { hop, held: hold(hop, hop.measured, result) }));
  return found.held;
}

function hold(hop: Hop, measured: NonNullable<Hop["measured"]>, result: HopResult): HeldHopReadings {
  const expected = expectedLevels(hop, result);
  const windowDb = levelWindowDb(hop);
  const signatures = signaturesOf(hop);
  const placed = measured.flatMap((one, index): Placed[] =>
    one === undefined ? [] : [{ index, measured: one, ...placeOf(one, expected) }],
  );
  const latest = latestOf(placed);
  const judged = placed.map((one): HeldReading => {
    const sameAs = latest.sameDay.get(one.index);
    const verdict = verdictOf(one, latest.replaced.has(one.index), windowDb);
    const lessDb = one.mode && one.mode.levelDbm - one.measured.levelDbm;
    const fitting = verdict === "low" ? signaturesFitting(signatures, lessDb!, windowDb) : [];
    return { ...one, verdict, lessDb, signatures: fitting, ...(sameAs !== undefined && { sameAs }) };
  });
  const agree = judged.filter(({ verdict }) => verdict === "agrees");
  const readings = judged.map((one) =>
    one.verdict === "low" ? { ...one, agreeing: agreeingWith(one, agree) } : one,
  );
  const seen = new Set(placed.map((one) => one.expected && keyOf(one.expected)));
  const unmeasured = expected.filter((one) => one.sender === "main" && !seen.has(keyOf(one)));
  return { windowDb, signatures, readings, unmeasured: placed.length === 0 ? [] : unmeasured };
}

type Placed = Pick<HeldReading, "index" | "measured" | "unlike" | "expected" | "mode">;

function placeOf(
  measured: Measurement,
  expected: readonly ExpectedLevel[],
): Pick<HeldReading, "unlike" | "expected" | "mode"> {
  const here = expected.filter(({ to }) => to === measured.site);
  if (here.length === 0) return {};
  const steps: readonly (readonly [UnlikeCode, (one: ExpectedLevel) => boolean])[] = [
    ["branch", ({ branch }) => branch === (measured.branch ?? "main")],
    ["carrier", ({ carrier }) => measured.carrier === undefined || carrier === measured.carrier],
    [
      "polarization",
      // A hop that states none has all of them.
      ({ polarization }) =>
        measured.polarization === undefined ||
        polarization === undefined ||
        polarization === measured.polarization,
    ],
    ["sender", ({ sender }) => (sender === "main" ? "main" : "standby") === (measured.sender ?? "main")],
    [
      "mode",
      ({ modes }) =>
        measured.mode === undefined || modes.some(({ modulation }) => modulation === measured.mode),
    ],
  ];
  let left = here;
  for (const [unlike, fits] of steps) {
    left = left.filter(fits);
    if (left.length === 0) return { unlike };
  }
  const [first] = left;
  const mode = modeOf(first!, measured);
  const isSeveral = left.some((one) => Math.abs(modeOf(one, measured).levelDbm - mode.levelDbm) > ALIKE_DB);
  return isSeveral ? { unlike: "several" } : { expected: first!, mode };
}

function modeOf({ modes }: ExpectedLevel, { mode }: Measurement): ExpectedMode {
  return modes.findLast(({ modulation }) => modulation === mode) ?? modes.at(-1)!;
}

/** The later reading of the same counts; of one day the one further down. */
function latestOf(placed: readonly Placed[]): {
  readonly replaced: ReadonlySet<number>;
  readonly sameDay: ReadonlyMap<number, number>;
} {
  const replaced = new Set<number>();
  const sameDay = new Map<number, number>();
  const latest = new Map<string, Placed>();
  for (const one of placed) {
    if (one.expected === undefined || one.mode === undefined) continue;
    const { measured, mode } = one;
    const key = `${keyOf(one.expected)} ${one.expected.sender} ${mode.modulation} ${measured.powerControl === "active"}`;
    const before = latest.get(key);
    if (before === undefined || before.measured.on <= measured.on) {
      if (before !== undefined) replaced.add(before.index);
      if (before?.measured.on === measured.on) sameDay.set(one.index, before.index);
      latest.set(key, one);
    } else replaced.add(one.index);
  }
  return { replaced, sameDay };
}

function keyOf({ to, carrier, branch }: ExpectedLevel): string {
  return `${to} ${carrier} ${branch}`;
}

function verdictOf(
  { measured, unlike, mode }: Placed,
  isReplaced: boolean,
  windowDb: number,
): ReadingVerdict {
  if (unlike !== undefined) return "not of the hop";
  if (mode === undefined) return "not known";
  if (isReplaced) return "replaced";
  if (measured.powerControl === "active") return "power control";
  if (measured.promisedDbm !== undefined && Math.abs(measured.promisedDbm - mode.levelDbm) > CHANGED_DB)
    return "before change";
  const lessDb = mode.levelDbm - measured.levelDbm;
  // A figure on the edge is inside: readings have one decimal.
  if (Math.abs(lessDb) <= windowDb + ALIKE_DB) return "agrees";
  return lessDb > 0 ? "low" : "high";
}

/** Both directions pass the same antennas and the same ground: where one is as promised, these are not at fault. */
function agreeingWith(low: HeldReading, agree: readonly HeldReading[]): HeldReading["agreeing"] {
  const { to, carrier } = low.expected!;
  const back = agree.find(({ expected }) => expected!.from === to && expected!.carrier === carrier);
  if (back !== undefined) return { of: "direction", index: back.index };
  const beside = agree.find(({ expected }) => expected!.to === to);
  return beside && { of: "branch", index: beside.index };
}
