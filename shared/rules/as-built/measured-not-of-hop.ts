import type { HeldReading, UnlikeCode } from "../../as-built/held.js";
import { readingPlace } from "../../as-built/words.js";
import type { HopRule } from "../rule.js";
import { measuredHop } from "./example-reading.js";
import { aboutReading, held, readingAddress } from "./readings.js";

export const measuredNotOfHop: HopRule = {
  scope: "hop",
  id: "measured-not-of-hop",
  severity: "error",
  title: "What was measured is there to be measured",
  checks:
    "The branch, sender, carrier, polarization and mode of each measured level against what the arrangement and the modes of the hop have at that end; and whether it is clear which of several carriers it is of.",
  why: "A level that belongs to nothing on the hop is held against nothing, and a fault in it goes unseen.",
  fix: "Name the branch, carrier or mode that was measured; where the hop was built otherwise, write the arrangement that was built.",
  source: "common practice",
  needs: ["levels"],
  good: measuredHop("-41.6 dBm at TARN on 2026-05-02"),
  bad: measuredHop("-47.9 dBm at TARN branch standby on 2026-05-02"),
  check(context) {
    for (const one of held(context)?.readings ?? []) {
      if (one.unlike === undefined) continue;
      context.report({
        at: readingAddress(context.hop, one.index),
        about: aboutReading(one),
        message: wordsOf(one, one.unlike),
        help: HELP[one.unlike],
      });
    }
  },
};

function wordsOf({ measured }: HeldReading, unlike: UnlikeCode): string {
  const { site, branch = "main", sender = "main", carrier, polarization, mode } = measured;
  switch (unlike) {
    case "branch":
      return `${site} has no ${branch} branch, of which a level was measured`;
    case "sender":
      return `no ${sender} unit sends to ${site}, of which a level was measured`;
    case "carrier":
      return `${readingPlace({ ...measured, carrier: undefined, mode: undefined })} has no carrier ${carrier}, of which a level was measured`;
    case "polarization":
      return `${readingPlace({ ...measured, polarization: undefined, mode: undefined })} receives nothing that is ${polarization}, of which a level was measured`;
    case "mode":
      return `the hop has no mode ${mode}, in which a level was measured at ${site}`;
    case "several":
      return `${readingPlace(measured)} receives several carriers at different levels, and which one was measured is not said`;
  }
}

const HELP: Readonly<Record<UnlikeCode, string>> = {
  branch: "name the branch that was measured, or write the arrangement that was built",
  sender: "leave `sender` out, or write the arrangement that was built",
  carrier: "name a carrier that the arrangement has",
  polarization: "name the polarization that the hop or the carrier has",
  mode: "name a mode of the hop, as the radio's catalogue entry writes it",
  several: "add `carrier` with its number, or `polarization`",
};
