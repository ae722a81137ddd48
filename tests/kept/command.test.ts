/** What the command line keeps between runs: the same answer with it, without it, and from two processes at once. */
import { spawn } from "node:child_process";
import { existsSync, mkdirSync, readdirSync } from "node:fs";
import { beforeAll, expect, test } from "vitest";
import { networkText, writeNetwork } from "../bench/network/network.js";
import { PROGRAM, run, scratch } from "../cli/built.js";

const LONG = 300_000;
let net: string;
beforeAll(() => {
  net = scratch("net");
  mkdirSync(scratch("terrain"), { recursive: true });
  // As many hops as are worth keeping.
  writeNetwork(net, networkText(310, "../terrain"));
}, LONG);

const check = (cache: string, ...more: string[]) =>
  run(["check", net, ...more], { env: { XDG_CACHE_HOME: cache, LOCALAPPDATA: cache, HOME: cache } });
const filesIn = (folder: string) =>
  existsSync(folder) ? readdirSync(folder, { recursive: true, encoding: "utf8" }) : [];

test("asked for nothing, it keeps nothing", { timeout: LONG }, () => {
  const cache = scratch("none");
  check(cache);
  run(["check", net, "--keep"], { env: { XDG_CACHE_HOME: cache, HOME: cache, HOPWRIGHT_NO_CACHE: "1" } });
  expect(filesIn(cache)).toEqual([]);
});

test("pointed into the design, it keeps nothing and says so", { timeout: LONG }, () => {
  const before = filesIn(net);
  const { stderr, stdout, status } = check(net, "--keep");
  expect(stderr).toMatch(/^hopwright: nothing is kept between runs: .* lies within the design; .*\n$/);
  expect(filesIn(net)).toEqual(before);
  expect({ stdout, status }).toEqual(answer(check(scratch("none"))));
});

test("two at once and one behind them say what one says that keeps nothing", { timeout: LONG }, async () => {
  const cache = scratch("cache");
  const env = { ...process.env, XDG_CACHE_HOME: cache, LOCALAPPDATA: cache, HOME: cache, NO_COLOR: "1" };
  const started = () =>
    new Promise<string>((done) => {
      let out = "";
      const child = spawn(process.execPath, [PROGRAM, "check", net, "--keep"], { env, cwd: scratch(".") });
      child.stdout.on("data", (data) => {
        out += String(data);
      });
      child.on("close", () => done(out));
    });
  const [one, other] = await Promise.all([started(), started()]);
  const behind = await started();
  expect(filesIn(cache).filter((path) => path.endsWith(".kept")).length).toBeGreaterThan(10);
  expect(filesIn(cache).filter((path) => path.endsWith(".part"))).toEqual([]);
  expect([other, behind]).toEqual([one, one]);
  const cold = run(["check", net], { cwd: scratch("."), env });
  expect(one).toBe(cold.stdout);
});

function answer({ stdout, status }: ReturnType<typeof run>) {
  return { stdout, status };
}
