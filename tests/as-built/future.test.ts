/** A day that is still to come is no day of a reading. */
import { expect, test } from "vitest";
import { measuredHop } from "../../shared/rules/as-built/example-reading.js";
import { EXAMPLE_PREAMBLE } from "../../shared/rules/example-preamble.js";
import { judgeNetwork } from "../../shared/rules/judge-network.js";
import { fixture } from "../support/fixture.js";
import { evaluated } from "./support.js";

function told(text: string, today: string): string[] {
  const { model } = fixture(`${EXAMPLE_PREAMBLE}\n${text}`);
  const { hop, result } = evaluated(text);
  return judgeNetwork(model.design(), new Map([[hop.name, result]]), today)
    .filter(({ rule }) => rule === "measured-in-future")
    .map(({ at, message }) => `${at}: ${message}`);
}

const READING = measuredHop("-41.6 dBm at TARN on 2026-05-02", "-41.6 dBm at KELD on 2026-05-04");

test("a reading of a day to come is told at its line, and with it what was built on one", () => {
  expect(told(READING, "2026-05-02")).toEqual([
    "hop KELD-TARN / measured#1: KELD is read on 2026-05-04, which is still to come",
  ]);
  const built = READING.replace(
    "transmits low",
    "transmits low\n    as-built on 2027-01-01 {\n      height 39 m\n    }",
  );
  expect(told(built, "2026-06-01")).toEqual([
    "hop KELD-TARN / TARN / as-built: TARN is looked at as built on 2027-01-01, which is still to come",
  ]);
});

test("today, and tomorrow, which it is already elsewhere, are none, of a reading and of what was built alike", () => {
  const built = measuredHop("-41.6 dBm at TARN on 2026-05-02").replace(
    "transmits low",
    "transmits low\n    as-built on 2026-05-04 {\n      height 39 m\n    }",
  );
  for (const text of [READING, built]) {
    expect(told(text, "2026-05-04")).toEqual([]);
    expect(told(text, "2026-05-03")).toEqual([]);
    expect(told(text, "2026-05-02")).toHaveLength(1);
  }
});
