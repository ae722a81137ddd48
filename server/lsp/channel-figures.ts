/** What each channel would come to for a hop in the editor: beside the numbers that completion offers, and as fixes. */
import type { CancellationToken } from "vscode-languageserver";
import { numberAskedAt } from "../../language/editor/complete-channel.js";
import type { QuickFix } from "../../language/editor/fixes/fix.js";
import { editsOf } from "../../language/editor/fixes/write.js";
import type { TriedNumber } from "../../language/editor/scene.js";
import { overlap, type TextRange } from "../../language/editor/text-range.js";
import { factNamed } from "../../language/facts/fact.js";
import { address } from "../../shared/design/address.js";
import { availabilityBounded } from "../../shared/format/bounds.js";
import { bandwidth, decibels } from "../../shared/format/numbers.js";
import { isOwn } from "../../shared/interference/station.js";
import { channelText } from "../../shared/spectrum/channel-choices.js";
import { senderWords } from "../../shared/words/interference.js";
import { type TriedChannel, tryChannelsBeside } from "../session/channels.js";
import type { DesignSession } from "../session/design-session.js";
import type { Pausing } from "../session/interference.js";

/** Others get their turn this often. */
const AT_ONCE_MS = 8;

/** Lets edits and other questions in, and ends where the answer is not wanted any more. */
export function besideOthers(token: Token): Pausing {
  let next = performance.now() + AT_ONCE_MS;
  return {
    pause() {
      if (performance.now() < next) return undefined;
      return new Promise<void>((resume) =>
        setImmediate(() => {
          next = performance.now() + AT_ONCE_MS;
          resume();
        }),
      );
    },
    isStale: () => token.isCancellationRequested,
  };
}

/** A list of numbers waits so long for its figures. */
const MOST_WAITED_MS = 1000;

/**
 * @returns undefined where no number is asked for at the place, or none can be tried; `late` where a list had better come
 * without figures, since interference is being computed or the network is large
 */
export async function numbersTried(
  session: DesignSession,
  path: string,
  offset: number,
  token: CancellationToken,
): Promise<readonly TriedNumber[] | "late" | undefined> {
  let isLate = false;
  let timer: NodeJS.Timeout | undefined;
  const waited = new Promise<"late">((resolve) => {
    timer = setTimeout(() => {
      isLate = true;
      resolve("late");
    }, MOST_WAITED_MS);
  });
  const wanted = {
    get isCancellationRequested() {
      return isLate || token.isCancellationRequested;
    },
  };
  try {
    return await Promise.race([numbersFor(session, path, offset, wanted), waited]);
  } finally {
    clearTimeout(timer);
  }
}

type Token = Pick<CancellationToken, "isCancellationRequested">;

async function numbersFor(
  session: DesignSession,
  path: string,
  offset: number,
  token: Token,
): Promise<readonly TriedNumber[] | undefined> {
  const asked = numberAskedAt(session.model, path, offset);
  if (asked === undefined || !session.interference.isComputed) return undefined;
  const { hop: name, ...ofPlan } = asked;
  const tried = await tryChannelsBeside(session, name, { ofPlan, pace: besideOthers(token) });
  if (tried === undefined || typeof tried === "string") return undefined;
  const stated = session.result(name)?.hop.polarization;
  const best = new Map<number, TriedChannel>();
  for (const one of tried) {
    const { choice, polarization } = one.trial;
    if (stated !== undefined && polarization !== stated) continue;
    if (!best.has(choice.number)) best.set(choice.number, one);
  }
  return [...best].map(([number, one]) => ({ number, figures: figuresOf(one) }));
}

/** `suffers 0.3 dB from A-B, causes 0.1 dB at C-D, 99.9981 % left`. */
function figuresOf({ trial, availability }: TriedChannel): string {
  const { suffersDb, by, causesDb, at } = trial;
  const from = by && suffersDb >= TOLD_DB ? ` from ${senderWords(by.sender)}` : "";
  const { of, place } = at?.receiver ?? {};
  const harmed =
    of === undefined || causesDb < TOLD_DB
      ? ""
      : ` at ${isOwn(of) ? `${of.hop}, ${place!.site}` : senderWords(at!.receiver)}`;
  const left = availability === undefined ? "" : `, ${availabilityBounded(availability)} available`;
  return `suffers ${decibels(suffersDb)}${from}, causes ${decibels(causesDb)}${harmed}${left}`;
}

/** Less than this is no reason to name anybody. */
const TOLD_DB = 0.05;

/** So many channels are offered for a hop whose number is open. */
const MOST_OFFERED = 3;

/** The hop of a file whose channel, without a number, a range touches. */
export function openHopAt({ model }: DesignSession, path: string, range: TextRange): string | undefined {
  const found = (model.file(path)?.declarations ?? []).find(({ kind, name, fact }) => {
    const channel = kind === "hop" ? factNamed(fact.facts, "channel") : undefined;
    return (
      channel !== undefined &&
      overlap(channel.statement, range) &&
      model.hop(name)?.hop?.openChannel !== undefined
    );
  });
  return found?.name;
}

/** The best channels for an open hop, with what it suffers and causes on each. */
export async function bestChannels(
  session: DesignSession,
  name: string,
  token: CancellationToken,
): Promise<readonly QuickFix[]> {
  if (!session.interference.isComputed) return [];
  const tried = await tryChannelsBeside(session, name, { pace: besideOthers(token) });
  if (tried === undefined || typeof tried === "string") return [];
  const stated = session.model.hop(name)?.hop?.polarization;
  return tried
    .filter(({ trial }) => stated === undefined || trial.polarization === stated)
    .slice(0, MOST_OFFERED)
    .flatMap((one): QuickFix[] => {
      const { choice } = one.trial;
      const edits = editsOf(session.model, [
        {
          do: "replace",
          at: address("hop", name, "channel"),
          argument: "width",
          by: `${bandwidth(choice.widthHz)} / ${choice.number}`,
        },
      ]);
      if (edits === undefined) return [];
      const title = `Take channel ${channelText(choice)}: ${figuresOf(one)}`;
      return [{ title, edits, rule: "hop-incomplete", changesDecision: true }];
    });
}
