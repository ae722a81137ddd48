/** Once before all suites: puts the packaged extension into the host, and for the browser serves it. */
import type { TestProject } from "vitest/node";
import { serveWorkbench } from "./browser.js";
import { prepareDesktop } from "./desktop.js";
import { hostFacts } from "./host.js";

declare module "vitest" {
  interface ProvidedContext {
    /** Browser: address of the served workbench. Desktop: path of the program. */
    workbench: string;
  }
}

export default async function setup(project: TestProject): Promise<() => Promise<void>> {
  const facts = hostFacts();
  const host = facts.kind === "browser" ? await serveWorkbench(facts) : await prepareDesktop(facts);
  project.provide("workbench", host.address);
  return host.stop;
}
