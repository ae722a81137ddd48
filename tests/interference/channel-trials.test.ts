/** Channels tried one by one: the same as the network computed with the hop on each of them, and nothing left behind. */
import { expect, test } from "vitest";
import { DesignModel } from "../../language/model/design-model.js";
import { readSource } from "../../language/model/source-file.js";
import { tryChannels } from "../../server/session/channels.js";
import { DesignSession } from "../../server/session/design-session.js";
import type { Hop } from "../../shared/design/design.js";
import { type ChannelTrial, isOnBoth } from "../../shared/interference/channel-trials.js";
import { fromHub } from "../../shared/rules/example-interference.js";
import { EXAMPLE_PREAMBLE } from "../../shared/rules/example-preamble.js";

const text = (channel: string, polarization = "vertical") =>
  `${EXAMPLE_PREAMBLE}\n${fromHub({ channel: 4 })}`
    .replaceAll("structure mast", "ground 200 m\n  structure mast")
    // The second hop is the one that is tried.
    .replace(/(hop MOSS-TARN[\s\S]*?channel P18 \/ 55 MHz) \/ 4/, `$1${channel}`)
    .replace(/(hop MOSS-TARN[\s\S]*?polarization) vertical/, `$1 ${polarization}`);

async function sessionOf(design: string): Promise<DesignSession> {
  const model = new DesignModel("/d");
  model.setFile(readSource("/d/network.hop", design));
  const session = new DesignSession(model, { today: "2026-06-01" });
  await session.update();
  return session;
}

function trialsOf(tried: Awaited<ReturnType<typeof tryChannels>>): readonly ChannelTrial[] {
  if (typeof tried === "string") throw new Error(tried);
  return tried.map(({ trial }) => trial);
}

const worst = (session: DesignSession, hop: string) =>
  Math.max(0, ...session.interference.of(hop).map(({ degradationDb }) => degradationDb));

test("each channel and polarization as if the design stated it", { timeout: 120_000 }, async () => {
  const session = await sessionOf(text(" / 4"));
  const before = [worst(session, "KELD-TARN"), worst(session, "MOSS-TARN")];
  const trials = trialsOf(await tryChannels(session, "MOSS-TARN"));
  // 17 channels of P18 that the radio tunes, two polarizations.
  expect(trials).toHaveLength(34);
  for (const { choice, polarization, suffersDb, causesDb, stated } of trials) {
    expect(stated === true).toBe(choice.number === 4 && polarization === "vertical");
    if (Math.abs(choice.number - 4) > 3) {
      expect([suffersDb, causesDb]).toEqual([0, 0]);
      continue;
    }
    const fresh = await sessionOf(text(` / ${choice.number}`, polarization));
    expect(suffersDb, `${choice.number} ${polarization}`).toBeCloseTo(worst(fresh, "MOSS-TARN"), 5);
    // Without it nothing comes in at the other hop.
    expect(causesDb, `${choice.number} ${polarization}`).toBeCloseTo(worst(fresh, "KELD-TARN"), 5);
  }
  // The best first, and the stated one among the worst.
  expect(trials[0]).toMatchObject({ beyond: 0, suffersDb: 0, causesDb: 0 });
  expect(trials.at(-1)!.choice.number).toBe(4);
  expect([worst(session, "KELD-TARN"), worst(session, "MOSS-TARN")]).toEqual(before);
});

test.each([
  ["1+0", false],
  ["2+0", false],
  ["2+0 xpic", true],
  ["1+1 xpic two-units", true],
  ["4+0 xpic", false],
])("on the channel of %s both polarizations are used: %s", (name, both) => {
  expect(isOnBoth({ arrangement: { name } } as Hop)).toBe(both);
});

test("a hop whose number is open is tried on all of them, and is on none before and after", async () => {
  const session = await sessionOf(text(""));
  expect(session.interference.of("MOSS-TARN")).toEqual([]);
  const trials = trialsOf(await tryChannels(session, "MOSS-TARN"));
  expect(trials).toHaveLength(34);
  expect(trials.some(({ stated }) => stated)).toBe(false);
  expect(worst(session, "KELD-TARN")).toBe(0);
  expect(
    trials.find(({ choice, polarization }) => choice.number === 4 && polarization === "vertical")!.causesDb,
  ).toBeGreaterThan(5);
});

test("why none can be tried", async () => {
  const why = async (edit: (design: string) => string) =>
    tryChannels(await sessionOf(edit(text(" / 4"))), "MOSS-TARN");
  expect(await why((design) => design.replace(/(hop MOSS-TARN[\s\S]*?)\n {2}channel [^\n]*/, "$1"))).toBe(
    "no channel",
  );
  expect(
    await why((design) =>
      design.replace("tuning 17.7 GHz to 19.7 GHz\n  low", "tuning 7 GHz to 8 GHz\n  low"),
    ),
  ).toBe("none tuned");
  expect(await tryChannels(await sessionOf(text(" / 4")), "NOBODY")).toBe("geometry");
});
