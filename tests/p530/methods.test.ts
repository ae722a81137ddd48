import { readdirSync } from "node:fs";
import { describe, expect, it } from "vitest";
import type { MethodReference } from "../../shared/propagation/method.js";
import { shown } from "../../shared/words/message.js";
import { standingMessage } from "../../shared/words/methods.js";

const folder = new URL("../../shared/propagation/p530/", import.meta.url);
const modules = readdirSync(folder).filter((name) => name.endsWith(".ts") && !name.endsWith(".data.ts"));

describe("what each module says of its source", () => {
  it.each(modules)("%s", async (name) => {
    const exported: Record<string, unknown> = await import(new URL(name, folder).href);
    const methods = Object.entries(exported)
      .filter(([key]) => key.startsWith("METHOD"))
      .map(([, value]) => value as MethodReference);
    expect(methods.length).toBeGreaterThan(0);
    for (const { recommendation, section, title, status, note } of methods) {
      expect(recommendation).toMatch(/^ITU-R P\.530-1[78]$/);
      expect(section).toMatch(/^\d(\.\d)*$/);
      expect(title.length).toBeGreaterThan(0);
      expect(note).toMatch(/\.$/);
      // The words may not promise more than the status: what is from memory says so.
      if (status === "from memory") expect(note).toMatch(/^From memory|from memory, not checked/);
      expect(shown(standingMessage(status))).toContain(status);
    }
  });
});
