/** Examples of two hops from one hub, which hear each other. */
import { exampleHop } from "./example-preamble.js";

/** The sound hop from KELD, and a second one from TARN past it that leaves five degrees aside. */
export function fromHub({
  channel,
  degradation,
}: {
  readonly channel: number;
  readonly degradation?: string;
}): string {
  const other = exampleHop().replaceAll("KELD", "MOSS").replace("/ 4", `/ ${channel}`);
  const own = exampleHop();
  return `site MOSS {
  at 47.49 -30.498
  structure mast 60 m
}

${degradation === undefined ? own : own.replace("\n", `\n  degradation ${degradation}\n`)}

${other}`;
}
