/** What a host must offer so that the same suite runs in it. */
import type { Page } from "playwright-core";

/** What `run.ts` found and made, handed on through the environment. */
export interface HostFacts {
  readonly kind: "browser" | "desktop";
  readonly server?: string;
  readonly chromium?: string;
  readonly vsix: string;
  /** Folder for all that a run leaves behind. */
  readonly out: string;
  /** Root of the project. */
  readonly root: string;
}

export interface OpenWorkbench {
  readonly page: Page;
  close(): Promise<void>;
}

export function hostFacts(): HostFacts {
  const facts = process.env.HOPWRIGHT_WORKBENCH;
  if (!facts) throw new Error("start the suite with: npm run test:workbench");
  return JSON.parse(facts) as HostFacts;
}

/** Settings that keep a fresh workbench quiet and typed text exactly as typed. */
export const USER_SETTINGS = {
  "workbench.startupEditor": "none",
  "workbench.secondarySideBar.defaultVisibility": "hidden",
  "workbench.colorTheme": "Default Light Modern",
  "workbench.tips.enabled": false,
  "chat.disableAIFeatures": true,
  "telemetry.telemetryLevel": "off",
  "extensions.autoUpdate": false,
  "extensions.autoCheckUpdates": false,
  "update.mode": "none",
  // The browser workbench saves by itself otherwise, and would bring unsaved text of the last run back.
  "files.autoSave": "off",
  "files.hotExit": "off",
  "files.simpleDialog.enable": true,
  "window.dialogStyle": "custom",
  "git.enabled": false,
  "security.workspace.trust.startupPrompt": "never",
  "editor.accessibilitySupport": "off",
  "editor.autoClosingBrackets": "never",
  "editor.autoClosingQuotes": "never",
  "editor.autoIndent": "none",
  "editor.minimap.enabled": false,
};
