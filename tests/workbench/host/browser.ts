/** The browser host: a served workbench with a Node extension host, shown in headless Chromium. */
import { type ChildProcess, spawn, spawnSync } from "node:child_process";
import { createWriteStream, mkdirSync, writeFileSync } from "node:fs";
import { createServer } from "node:net";
import { join } from "node:path";
import { setTimeout as sleep } from "node:timers/promises";
import { chromium } from "playwright-core";
import { type HostFacts, type OpenWorkbench, USER_SETTINGS } from "./host.js";

/**
 * Installs the extension into a fresh profile and serves the workbench on a free port of this machine.
 * @param asksForTrust whether opened folders are strange at first; otherwise all are trusted
 */
export async function serveWorkbench(
  facts: HostFacts,
  asksForTrust = false,
): Promise<{ address: string; stop(): Promise<void> }> {
  const folder = join(facts.out, asksForTrust ? "server-of-strangers" : "server");
  const data = join(folder, "data");
  mkdirSync(join(data, "User"), { recursive: true });
  writeFileSync(join(data, "User", "settings.json"), JSON.stringify(USER_SETTINGS, undefined, 2));
  const config = join(folder, "config.yaml");
  writeFileSync(config, "auth: none\n");
  const common = [
    facts.server!,
    "--config",
    config,
    "--user-data-dir",
    data,
    "--extensions-dir",
    join(folder, "extensions"),
  ];
  const env = { ...process.env, EXTENSIONS_GALLERY: '{"serviceUrl":""}' };
  const install = spawnSync(process.execPath, [...common, "--install-extension", facts.vsix], {
    env,
    encoding: "utf8",
  });
  if (install.status !== 0)
    throw new Error(`the extension could not be installed: ${install.stdout}${install.stderr}`);

  const port = await freePort();
  const quiet = ["--disable-telemetry", "--disable-update-check"];
  if (!asksForTrust) quiet.push("--disable-workspace-trust");
  const server = spawn(
    process.execPath,
    [...common, "--auth", "none", "--bind-addr", `127.0.0.1:${port}`, ...quiet],
    { env },
  );
  const log = createWriteStream(join(folder, "server.log"));
  server.stdout.pipe(log);
  server.stderr.pipe(log);
  const address = `http://127.0.0.1:${port}`;
  await answers(`${address}/healthz`, server);
  return { address, stop: () => ended(server) };
}

export async function openInBrowser(
  facts: HostFacts,
  address: string,
  folder: string,
): Promise<OpenWorkbench> {
  const browser = await chromium.launch({
    executablePath: facts.chromium,
    args: [
      "--no-sandbox",
      "--disable-gpu",
      "--disable-quic",
      "--no-first-run",
      "--disable-background-networking",
      "--disable-component-update",
      "--disable-sync",
    ],
  });
  const context = await browser.newContext({ viewport: { width: 1440, height: 900 } });
  const page = await context.newPage();
  await page.goto(`${address}/?folder=${encodeURIComponent(folder)}`);
  return { page, close: () => browser.close() };
}

async function freePort(): Promise<number> {
  const probe = createServer();
  await new Promise<void>((resolve) => probe.listen(0, "127.0.0.1", resolve));
  const address = probe.address();
  await new Promise((resolve) => probe.close(resolve));
  if (address === null || typeof address === "string") throw new Error("no free port");
  return address.port;
}

async function answers(url: string, server: ChildProcess): Promise<void> {
  for (let tries = 0; tries < 120; tries++) {
    if (server.exitCode !== null)
      throw new Error(`the served workbench ended with status ${server.exitCode}`);
    const answer = await fetch(url).catch(() => undefined);
    if (answer?.ok) return;
    await sleep(500);
  }
  throw new Error("the served workbench did not answer within a minute");
}

async function ended(server: ChildProcess): Promise<void> {
  if (server.exitCode !== null) return;
  const exit = new Promise((resolve) => server.once("exit", resolve));
  server.kill("SIGTERM");
  await Promise.race([exit, sleep(5000)]);
  if (server.exitCode === null) server.kill("SIGKILL");
}
