import { test } from "vitest";
import { PROPOSALS } from "../../language/editor/fixes/index.js";
import { EXAMPLE_PREAMBLE } from "../../shared/rules/example-preamble.js";
import { RULES } from "../../shared/rules/index.js";
import { fixesOfRule } from "./applied.js";

test("probe", async () => {
  for (const rule of RULES.values()) {
    const applied = await fixesOfRule(`${EXAMPLE_PREAMBLE}\n${rule.bad}`, rule.id);
    const mend = applied.filter(({ fix }) => !fix.title.startsWith("Accept "));
    const flag = PROPOSALS[rule.id] && mend.length === 0 ? " NOFIX" : "";
    if (flag) console.log(rule.id, flag);
    for (const a of applied) {
      const bad = a.after >= a.before ? `STAYS ${a.before}->${a.after}` : "";
      const came = a.came.length ? `CAME ${a.came.map((c) => c.rule + "@" + c.at).join("; ")}` : "";
      if (bad || came) console.log(rule.id, "|", a.fix.title.slice(0, 70), "|", bad, came);
    }
  }
}, 300000);
