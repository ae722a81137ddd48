import { execFileSync } from "node:child_process";
import { chmodSync, existsSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { hostFacts } from "./host/host.js";
import { command, openFile, problems, webview, workbenchOf } from "./workbench.js";

const SOON = { timeout: 25_000 };

describe("a workspace that is not trusted", () => {
  let mark = "";
  const workbench = workbenchOf(
    "trust",
    "learning",
    (samples) => {
      git(samples, "init", "-q", "-b", "main");
      git(samples, "add", "-A");
      git(samples, "commit", "-q", "-m", "As handed out");
      const hops = join(samples, "learning/hops.hop");
      writeFileSync(
        hops,
        readFileSync(hops, "utf8").replace("antenna DISH60-18 at 15 m", "antenna DISH60-18 at 36 m"),
      );
      mark = join(samples, "started");
      const program = join(samples, "program");
      writeFileSync(program, `#!/bin/sh\necho started >> "${mark}"\n`);
      chmodSync(program, 0o755);
      git(samples, "config", "core.fsmonitor", program);
      // The editor's own git is off in these suites; without that it would have been started by now.
      expect(existsSync(mark)).toBe(false);
    },
    true,
  );
  const lenses = () => workbench.page.locator(".editor-instance .codelens-decoration a");
  const told = async () => (await lenses().allInnerTexts()).map((text) => text.replaceAll("\u00a0", " "));

  it("is judged all the same", async () => {
    await workbench.page.getByText("Restricted Mode").first().waitFor();
    const list = await problems(workbench);
    await list
      .filter({ hasText: "BIRCH-ROWAN" })
      .or(list.filter({ hasText: "margin" }))
      .first()
      .waitFor({ timeout: 50_000 });
    await workbench.page.keyboard.press("Control+J");
  });

  it("is not compared, and that is said: in a message and over the text", async () => {
    await openFile(workbench, "hops.hop");
    await command(workbench, "Hopwright: Compare with revision");
    const complaint = workbench.page.locator(".notifications-toasts .notification-list-item", {
      hasText: "nothing is started in a workspace that is not trusted",
    });
    await complaint.waitFor();
    await expect.poll(told, SOON).toEqual(["not compared with HEAD: the workspace is not trusted"]);
    await workbench.page.screenshot({ path: join(hostFacts().out, "trust.png") });
    await complaint.getByRole("button", { name: "Manage Workspace Trust" }).click();
  });

  it("is compared once it is trusted, without anything being asked or started anew", async () => {
    await workbench.page.getByRole("button", { name: "Trust", exact: true }).click();
    // What trust is managed in lies over the text.
    await workbench.page.locator(".monaco-modal-editor-block .action-label.codicon-close").first().click();
    await webview(workbench, /ALDER-HAZEL: .*1 finding fixed/);
    await workbench.page.locator('.tab[data-resource-name="hops.hop"]').click();
    await expect.poll(told, SOON).toEqual([expect.stringMatching(/^changed since HEAD: .*1 finding fixed$/)]);
    expect(existsSync(mark)).toBe(false);
  });

  it("breaks no content policy", () => {
    expect(workbench.refusals).toEqual([]);
  });
});

function git(folder: string, ...args: string[]): void {
  const identity = ["-c", "user.name=Author", "-c", "user.email=author@example.org"];
  execFileSync("git", [...identity, ...args], { cwd: folder, stdio: ["ignore", "ignore", "inherit"] });
}
