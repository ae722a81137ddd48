/** Remedies against interference, each tried on the whole network of a session: what it comes to here, and what elsewhere. */
import { expect, test } from "vitest";
import { findingFixes } from "../../language/editor/quick-fixes.js";
import { applyEdits } from "../../language/editor/text-range.js";
import { DesignModel } from "../../language/model/design-model.js";
import { readSource } from "../../language/model/source-file.js";
import { DesignSession } from "../../server/session/design-session.js";
import { tryEdits } from "../../server/session/trial.js";
import { fromHub } from "../../shared/rules/example-interference.js";
import { EXAMPLE_PREAMBLE, exampleHop } from "../../shared/rules/example-preamble.js";

const PATH = "/d/network.hop";
const onGround = (text: string) =>
  text.replaceAll("structure mast 60 m", "ground 200 m\n  structure mast 60 m");

/** A third hop from the hub, on the next channel below: whoever moves there meets it. */
const THIRD = `site FELL {
  at 47.51 -30.502
  structure mast 60 m
}
${exampleHop().replaceAll("KELD", "FELL").replace("/ 4", "/ 3")}`;

async function settled(text: string) {
  const model = new DesignModel("/d");
  model.setFile(readSource(PATH, text));
  const session = new DesignSession(model, { today: "2026-06-01" });
  await session.update();
  session.updateNetwork();
  return session;
}

const sum = (session: DesignSession, hop: string) =>
  session.interference.of(hop).map(({ receiver, degradationDb }) => [receiver.key, degradationDb]);

async function fixesAt(session: DesignSession, at: string) {
  const finding = session
    .networkFindings()
    .find((one) => one.rule === "interference-degradation" && one.at === at)!;
  return findingFixes(
    { model: session.model, finding, before: session.networkFindings(), interference: session.interference },
    (edits) => tryEdits(session, edits, []),
  );
}

test("a channel is offered with what it comes to, and none where another hop would suffer", async () => {
  const text = onGround(`${EXAMPLE_PREAMBLE}\n${fromHub({ channel: 4 })}\n${THIRD}`);
  const session = await settled(text);
  const before = sum(session, "KELD-TARN");
  const fixes = (await fixesAt(session, "hop KELD-TARN / KELD")).slice(0, -1);
  const titles = fixes.map(({ title }) => title);
  expect(titles).toHaveLength(3);
  for (const title of titles) expect(title).toMatch(/: \d\.\d dB here, nothing new elsewhere$/);
  expect(titles.join()).toContain("Take channel P18 / 55 MHz / 5");
  expect(titles.join()).not.toContain("/ 55 MHz / 3 ");
  // What was tried left the session as it was, and each comes to what it says.
  expect(sum(session, "KELD-TARN")).toEqual(before);
  for (const { edits, title } of fixes) {
    const after = await settled(applyEdits(text, edits));
    const here = Math.max(
      ...after.interference
        .of("KELD-TARN")
        .filter(({ receiver }) => receiver.place.site === "KELD")
        .map(({ degradationDb }) => degradationDb),
    );
    expect(title).toContain(`: ${here.toFixed(1)} dB here`);
    const suffering = after.networkFindings().filter(({ rule }) => rule === "interference-degradation");
    expect(suffering).toEqual([]);
  }
});

test("what is tried is what a session comes to that begins with the edited text", async () => {
  const text = onGround(`${EXAMPLE_PREAMBLE}\n${fromHub({ channel: 4 })}\n${THIRD}`);
  const session = await settled(text);
  const start = text.lastIndexOf("/ 4");
  const edits = [{ file: PATH, start, end: start + 3, newText: "/ 3" }];
  const tried = await tryEdits(session, edits, []);
  const fresh = await settled(applyEdits(text, edits));
  for (const hop of ["KELD-TARN", "MOSS-TARN", "FELL-TARN"]) {
    const figures = tried
      .interference!.of(hop)
      .map(({ receiver, degradationDb }) => [receiver.key, degradationDb]);
    expect(figures).toEqual(sum(fresh, hop));
  }
  const ofNetwork = (findings: readonly { rule: string; at: string }[]) =>
    findings.filter(({ rule }) => rule.startsWith("interference")).map(({ rule, at }) => `${rule} ${at}`);
  expect(ofNetwork(tried.findings).toSorted()).toEqual(ofNetwork(fresh.networkFindings()).toSorted());
});

test("less power is not offered where the hop's own margin would be missed by it", async () => {
  const terms = (most: number) => `interference { aggregate ${most} dB }\n`;
  const offered = async (most: number) => {
    const session = await settled(onGround(`${EXAMPLE_PREAMBLE}\n${terms(most)}${fromHub({ channel: 4 })}`));
    return (await fixesAt(session, "hop KELD-TARN / KELD")).map(({ title }) => title).join("\n");
  };
  expect(await offered(12)).not.toContain("Lower the power");
});
