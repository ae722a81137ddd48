/** The desktop host: the editor's own program, fetched on first use, driven through the same kind of page. */
import { spawnSync } from "node:child_process";
import { mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { downloadAndUnzipVSCode, resolveCliArgsFromVSCodeExecutablePath } from "@vscode/test-electron";
import { _electron } from "playwright-core";
import { type HostFacts, type OpenWorkbench, USER_SETTINGS } from "./host.js";

export async function prepareDesktop(facts: HostFacts): Promise<{ address: string; stop(): Promise<void> }> {
  const program = await downloadAndUnzipVSCode();
  const { data, folders } = profile(facts);
  mkdirSync(join(data, "User"), { recursive: true });
  writeFileSync(join(data, "User", "settings.json"), JSON.stringify(USER_SETTINGS, undefined, 2));
  const [cli, ...args] = resolveCliArgsFromVSCodeExecutablePath(program);
  const install = spawnSync(cli!, [...args, ...folders, "--install-extension", facts.vsix], {
    encoding: "utf8",
  });
  if (install.status !== 0)
    throw new Error(`the extension could not be installed: ${install.stdout}${install.stderr}`);
  return { address: program, stop: async () => undefined };
}

export async function openOnDesktop(
  facts: HostFacts,
  program: string,
  folder: string,
  asksForTrust = false,
): Promise<OpenWorkbench> {
  const flags = ["--no-sandbox", "--disable-updates", "--skip-welcome", "--new-window"];
  if (!asksForTrust) flags.push("--disable-workspace-trust");
  const app = await _electron.launch({
    executablePath: program,
    args: [...flags, ...profile(facts).folders, folder],
  });
  const page = await app.firstWindow();
  return { page, close: () => app.close() };
}

function profile(facts: HostFacts): { data: string; folders: string[] } {
  const data = join(facts.out, "desktop", "data");
  return {
    data,
    folders: ["--user-data-dir", data, "--extensions-dir", join(facts.out, "desktop", "extensions")],
  };
}
