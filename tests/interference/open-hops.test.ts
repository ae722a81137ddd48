/** What is proposed for open hops, against the whole engine on every choice there is, and what cannot be proposed. */
import { expect, test } from "vitest";
import { DesignModel } from "../../language/model/design-model.js";
import { readSource } from "../../language/model/source-file.js";
import { DesignSession } from "../../server/session/design-session.js";
import { proposeChannels } from "../../server/session/open-channels.js";
import { isBeyond } from "../../shared/interference/channel-trials.js";
import { EXAMPLE_PREAMBLE } from "../../shared/rules/example-preamble.js";

/** Two channels, so that every choice can be tried. */
const PREAMBLE = EXAMPLE_PREAMBLE.replace("channels 1 to 17", "channels 1 to 2").replaceAll(
  "structure mast",
  "ground 200 m\n  structure mast",
);

interface Leg {
  readonly from: string;
  readonly to: string;
  readonly channel?: string;
  readonly polarization?: string;
  readonly first?: "high" | "low";
  readonly more?: string;
}

function hopText({ from, to, channel = "P18 / 55 MHz", polarization, first, more = "" }: Leg): string {
  const half = (own: "high" | "low") => (first === undefined ? "" : `\n    transmits ${own}`);
  return `hop ${from}-${to} {
  ${channel === "" ? "" : `channel ${channel}`}
  ${polarization === undefined ? "" : `polarization ${polarization}`}
  radio R18
  mode 55 MHz 128QAM
  ${more}
  ${from} { antenna DISH60-18 at 40 m${half(first ?? "high")}\n  }
  ${to} { antenna DISH60-18 at 40 m${half(first === "high" ? "low" : "high")}\n  }
}
`;
}

/** Far ends round KELD, so many degrees apart that they hear each other more or less. */
function star(bearings: readonly number[]): string {
  return bearings
    .map((degrees, at) => {
      const angle = (degrees * Math.PI) / 180;
      const [north, east] = [47.5 + 0.07 * Math.cos(angle), -30.5 + 0.1 * Math.sin(angle)];
      return `site S${at} { at ${north.toFixed(5)} ${east.toFixed(5)}; ground 200 m; structure mast 60 m }\n`;
    })
    .join("");
}

async function sessionOf(text: string): Promise<DesignSession> {
  const model = new DesignModel("/d");
  model.setFile(readSource("/d/network.hop", `${PREAMBLE}\n${text}`));
  const session = new DesignSession(model, { today: "2026-06-01" });
  await session.update();
  return session;
}

async function proposalFor(text: string) {
  return (await proposeChannels(await sessionOf(text)))!;
}

const NUMBERS = [1, 2];
const POLARIZATIONS = ["vertical", "horizontal"];
const CHOICES = NUMBERS.flatMap((number) => POLARIZATIONS.map((polarization) => ({ number, polarization })));

/** Receivers beyond what is allowed, and channels, of every choice, by the whole engine. */
async function bestOf(sites: string, legs: readonly Leg[]) {
  let best = { beyond: Number.POSITIVE_INFINITY, channels: 0 };
  for (let at = 0; at < CHOICES.length ** legs.length; at++) {
    const chosen = legs.map((leg, index) => {
      const { number, polarization } = CHOICES[Math.floor(at / CHOICES.length ** index) % CHOICES.length]!;
      return { ...leg, channel: `P18 / 55 MHz / ${number}`, polarization };
    });
    const session = await sessionOf(sites + chosen.map(hopText).join(""));
    const beyond = legs.flatMap(({ from, to }) =>
      session.interference.of(`${from}-${to}`).filter(isBeyond),
    ).length;
    const channels = new Set(chosen.map(({ channel }) => channel)).size;
    if (beyond < best.beyond || (beyond === best.beyond && channels < best.channels))
      best = { beyond, channels };
  }
  return best;
}

test.each([
  ["far apart", [0, 120, 240]],
  ["two near each other", [0, 4, 180]],
  ["three in a fan", [0, 6, 12]],
  ["nearly one way", [40, 41, 43]],
])("%s: no choice is better by the whole engine", async (_, bearings) => {
  const legs = bearings.map((__, at): Leg => ({ from: "KELD", to: `S${at}`, first: "high" }));
  const proposal = await proposalFor(star(bearings) + legs.map(hopText).join(""));
  const best = await bestOf(star(bearings), legs);
  expect({ beyond: proposal.beyond.length, channels: proposal.channels }).toEqual(best);
  expect(proposal.least).toEqual({ violations: best.beyond, spectrumHz: best.channels * 55e6 });
  expect(proposal.left).toEqual([]);
});

test("what is stated is kept, and halves fit it", async () => {
  const text =
    star([0, 6, 200]) +
    hopText({ from: "KELD", to: "S0", channel: "P18 / 55 MHz / 2", polarization: "vertical", first: "low" }) +
    hopText({ from: "S1", to: "KELD", polarization: "horizontal" }) +
    hopText({ from: "KELD", to: "S2", channel: "P18 / 55 MHz / 1" });
  const { proposed } = await proposalFor(text);
  expect(
    proposed.map(({ open, choice, polarization }) => [
      open.hop.name,
      open.isNumberOpen ? choice.number : "kept",
      open.isPolarizationOpen ? "open" : polarization,
      [...open.halves],
    ]),
  ).toEqual([
    [
      "KELD-S2",
      "kept",
      "open",
      [
        ["KELD", "low"],
        ["S2", "high"],
      ],
    ],
    [
      "S1-KELD",
      expect.any(Number),
      "horizontal",
      [
        ["S1", "high"],
        ["KELD", "low"],
      ],
    ],
  ]);
});

test("what cannot be proposed is told, and the rest is proposed", async () => {
  const text =
    star([0, 90, 180, 270, 45]) +
    hopText({ from: "KELD", to: "S0", channel: "P18" }) +
    hopText({ from: "KELD", to: "S1" }).replace("radio R18", "radio R7") +
    hopText({ from: "KELD", to: "S2" }).replace(/radio R18\n {2}mode .*/, "") +
    hopText({ from: "KELD", to: "S3" }) +
    hopText({ from: "S0", to: "S4", first: "high" }) +
    hopText({ from: "S4", to: "S1", first: "high" }) +
    "radio R7 like R18 { tuning 7 GHz to 8 GHz; low-half 7 GHz to 7.4 GHz; high-half 7.6 GHz to 8 GHz }\n";
  const { left, proposed, contradictions } = await proposalFor(text);
  expect(left.map(({ hop, why }) => `${hop.name}: ${why}`)).toEqual([
    "KELD-S0: channel unknown",
    "KELD-S1: none tuned",
    "KELD-S2: no radio",
  ]);
  expect(proposed.map(({ open }) => open.hop.name)).toEqual(["KELD-S3", "S0-S4", "S4-S1"]);
  // S4 transmits low to S0 and high to S1.
  expect(contradictions).toMatchObject([{ keptExchanged: [expect.any(String)] }]);
});

test("a ring of an odd number of hops leaves one without a half", async () => {
  const text =
    star([0, 30]) +
    hopText({ from: "KELD", to: "S0" }) +
    hopText({ from: "S0", to: "S1" }) +
    hopText({ from: "S1", to: "KELD" });
  const { left, proposed, contradictions } = await proposalFor(text);
  expect(left).toMatchObject([{ why: "odd ring" }]);
  expect(proposed).toHaveLength(2);
  expect(contradictions[0]!.ring!.hops.toSorted()).toEqual(["KELD-S0", "S0-S1", "S1-KELD"]);
});

test("it can be broken off, and leaves nothing behind", async () => {
  const session = await sessionOf(star([0, 6]) + hopText({ from: "KELD", to: "S0" }));
  expect(await proposeChannels(session, { isStale: () => true })).toBeUndefined();
  expect(session.interference.of("KELD-S0")).toEqual([]);
});
