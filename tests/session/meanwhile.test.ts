/** What changes while it is looked at, or beside the text, is seen: an open session says what one says that begins then. */
import { mkdirSync, mkdtempSync, rmSync, utimesSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { afterAll, expect, test } from "vitest";
import { DesignModel } from "../../language/model/design-model.js";
import { readSource } from "../../language/model/source-file.js";
import { slashed } from "../../server/files/slashed.js";
import { DesignSession } from "../../server/session/design-session.js";
import { listedFiles } from "../../server/session/listed-files.js";
import { NO_FILES } from "../../shared/others/listed.js";
import { fromHub } from "../../shared/rules/example-interference.js";
import { EXAMPLE_PREAMBLE, exampleHop } from "../../shared/rules/example-preamble.js";

const TODAY = "2026-06-01";
const root = slashed(mkdtempSync(join(tmpdir(), "hopwright-meanwhile-")));
afterAll(() => rmSync(root, { recursive: true, force: true }));

let writes = 0;
function write(name: string, text: string): string {
  const path = `${root}/${name}`;
  mkdirSync(dirname(path), { recursive: true });
  writeFileSync(path, text);
  // Two writes within a tick of the clock are two all the same.
  utimesSync(path, 1e9, 1e9 + ++writes);
  return path;
}

function modelOf(text: string): DesignModel {
  const model = new DesignModel(root);
  model.setFile(readSource(`${root}/network.hop`, text));
  return model;
}

const sessionOf = (text: string, today = TODAY) => new DesignSession(modelOf(text), { today });

async function said(session: DesignSession) {
  await session.update();
  session.updateNetwork();
  const hops = [...session.results()].map(([name, { findings, result }]) => [
    name,
    findings,
    result.clearance,
  ]);
  return { network: session.networkFindings(), hops };
}

const LENGTH_M = 9360;
const ground = (highestM: number) =>
  `distance_m,height_m\n0,200\n${LENGTH_M / 2},${highestM}\n${LENGTH_M},205\n`;
const surveyed = (antennaM: number) =>
  `${EXAMPLE_PREAMBLE}\n${exampleHop({
    hop: 'polarization vertical\n  radio R18\n  mode 55 MHz 128QAM\n  survey "ground.csv" from KELD by field',
    keld: `antenna DISH60-18 at ${antennaM} m\n    transmits high`,
  })}`;

test("a hop that is edited while it is judged is judged again, whoever asked meanwhile what waits", async () => {
  write("ground.csv", ground(210));
  for (const turns of [0, 1, 2, 3, 5, 8]) {
    const session = sessionOf(surveyed(20));
    const running = session.update();
    for (let i = 0; i < turns; i++) await Promise.resolve();
    session.model.setFile(readSource(`${root}/network.hop`, surveyed(40)));
    session.carried();
    await running;
    expect([turns, await said(session)]).toEqual([turns, await said(sessionOf(surveyed(40)))]);
  }
});

/** So long that the disk has answered in part. */
const turned = async (turns: number) => {
  for (let i = 0; i < turns; i++) await new Promise((resolve) => setImmediate(resolve));
};

test("a survey that is written while its hop is judged is read again", async () => {
  const long = (highestM: number) => {
    const rows = Array.from({ length: 20_000 }, (_, i) => `${(i * LENGTH_M) / 20_000},200`);
    return ground(highestM).replace("0,200\n", `${rows.slice(0, 10_000).join("\n")}\n`);
  };
  for (let turns = 0; turns < 12; turns++) {
    const path = write("ground.csv", long(210));
    const session = sessionOf(surveyed(20));
    const running = session.update();
    await turned(turns);
    write("ground.csv", long(290));
    await session.refreshGround([path]);
    await running;
    expect([turns, await said(session)]).toEqual([turns, await said(sessionOf(surveyed(20)))]);
  }
});

test("a survey whose folder goes is gone, whatever it is called", async () => {
  write("field/ground.txt", ground(210));
  const text = surveyed(20).replace("ground.csv", "field/ground.txt");
  const session = sessionOf(text);
  const before = await said(session);
  rmSync(`${root}/field`, { recursive: true });
  await session.refreshGround([`${root}/field`]);
  const after = await said(session);
  expect(after).toEqual(await said(sessionOf(text)));
  expect(after).not.toEqual(before);
});

const LIST = `others "lists/others.txt" {
  latitude "lat"
  longitude "lon"
  antenna-height "height" in m
  antenna-gain "gain" in dBi
  frequency "frequency" in MHz
  bandwidth "bandwidth" in MHz
  eirp "eirp" in dBm
}
`;
const ROWS = (eirpDbm: number) =>
  `lat,lon,height,gain,frequency,bandwidth,eirp\n47.56,-30.38,40,38,18930,55,${eirpDbm}\n`;
const HEARING = `${EXAMPLE_PREAMBLE.replaceAll("structure mast 60 m", "ground 200 m\n  structure mast 60 m")}\n${LIST}\n${exampleHop()}`;

test("a list that changes or goes with its folder is read again, whatever it is called", async () => {
  const path = write("lists/others.txt", ROWS(20));
  const session = sessionOf(HEARING);
  const before = await said(session);
  write("lists/others.txt", ROWS(70));
  await session.refreshGround([path]);
  const louder = await said(session);
  expect(louder).toEqual(await said(sessionOf(HEARING)));
  expect(louder).not.toEqual(before);
  rmSync(`${root}/lists`, { recursive: true });
  await session.refreshGround([`${root}/lists`]);
  const gone = await said(session);
  expect(gone).toEqual(await said(sessionOf(HEARING)));
  expect(gone.network.map(({ rule }) => rule)).toContain("others-unusable");
});

test("a list that changes while the lists are read is read again", async () => {
  const many = (eirpDbm: number) => `${ROWS(eirpDbm)}${"-47.56,30.38,40,38,18930,55,20\n".repeat(2000)}`;
  for (let turns = 0; turns < 30; turns += 2) {
    const path = write("lists/others.txt", many(20));
    const session = sessionOf(HEARING);
    const running = session.update();
    await turned(turns);
    write("lists/others.txt", many(70));
    await session.refreshGround([path]);
    await running;
    expect([turns, await said(session)]).toEqual([turns, await said(sessionOf(HEARING))]);
  }
});

test("a pattern that changes in its file makes all that rests on it anew", async () => {
  const text = `${EXAMPLE_PREAMBLE}\n${fromHub({ channel: 4 })}`
    .replaceAll("structure mast", "ground 200 m\n  structure mast")
    .replace(/^antenna DISH60-18 \{$/m, '$&\n  pattern-file "pattern.csv"');
  expect(text).toContain("pattern-file");
  const path = write("pattern.csv", "angle,co,cross\n5,10,20\n180,30,40\n");
  const session = sessionOf(text);
  const before = await said(session);
  write("pattern.csv", "angle,co,cross\n5,40,50\n180,70,70\n");
  await session.refreshGround([path]);
  const after = await said(session);
  expect(after).toEqual(await said(sessionOf(text)));
  expect(after).not.toEqual(before);
});

test("however many small files are named, none is read again that did not change", async () => {
  const lists = Array.from({ length: 40 }, (_, i) => {
    write(`many/${i}.csv`, ROWS(20 + i));
    return LIST.replace("lists/others.txt", `many/${i}.csv`);
  });
  const model = modelOf(`${EXAMPLE_PREAMBLE}\n${lists.join("\n")}`);
  const first = await listedFiles(model, NO_FILES, {});
  expect(first!.others.size).toBe(40);
  expect(await listedFiles(model, first!, {})).toBe(first);
});

test("when another day begins, what ended with the last one has ended", async () => {
  const text = `${EXAMPLE_PREAMBLE}\n${exampleHop({
    hop: `polarization vertical\n  radio R18\n  mode 55 MHz 128QAM\n  accept not-judged until ${TODAY} because "agreed"`,
    keld: "antenna DISH60-18 at 1 m\n    transmits high",
  })}`;
  const session = sessionOf(text);
  const rules = ({ hops }: Awaited<ReturnType<typeof said>>) => JSON.stringify(hops);
  expect(rules(await said(session))).not.toContain("acceptance-expired");
  session.beginDay("2026-06-02");
  const after = await said(session);
  expect(rules(after)).toContain("acceptance-expired");
  expect(after).toEqual(await said(sessionOf(text, "2026-06-02")));
});
