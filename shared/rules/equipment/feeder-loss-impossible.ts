import { address } from "../../design/address.js";
import type { Feeder } from "../../design/catalogue.js";
import { feedersStated } from "../../equipment/stands.js";
import { waveguideLoss, waveguideSize } from "../../equipment/waveguide.js";
import { frequency, trimmed } from "../../format/numbers.js";
import { aboutEntries } from "../entry-rule.js";
import { exampleHop } from "../example-preamble.js";
import { gathering } from "../rule.js";

/** Silver loses 4 % less than copper; catalogues round. */
const BEST_METAL = 0.95;

const feeder = (loss: string) => `feeder WG18 {
  kind rectangular
  guide R220
  loss ${loss} at 18.7 GHz
}

${exampleHop({ keld: "antenna DISH60-18 at 40 m\n    feeder WG18 length 3 m\n    transmits high" })}`;

export const feederLossImpossible = gathering({
  scope: "network",
  id: "feeder-loss-impossible",
  severity: "error",
  title: "A rectangular guide cannot lose less than smooth copper",
  checks:
    "Each point of loss of a feeder that names its guide against the TE10 loss of smooth copper of that size, less 5 %, and against its cut-off.",
  why: "A loss below physics was read in another unit or for another guide; the level is too good by it.",
  fix: "Look the figure up again: dB/100 m and dB/m are easily exchanged.",
  source: "field theory of the TE10 mode; sizes of IEC 60153-2 and EIA, names partly from memory",
  good: feeder("0.5 dB/m"),
  bad: feeder("0.05 dB/m"),
  ...aboutEntries(
    (hop) => hop.ends.flatMap(feedersStated).map(({ feeder }) => feeder),
    (feeder) => {
      const message = impossible(feeder);
      return message === undefined ? [] : [{ at: address("feeder", feeder.name, "loss"), message }];
    },
  ),
});

function impossible({ name, guide, loss }: Feeder): string | undefined {
  const size = guide === undefined ? undefined : waveguideSize(guide);
  if (size === undefined) return undefined;
  for (const { lossDbPerM, frequencyHz } of loss) {
    if (frequencyHz === undefined) continue;
    const copper = waveguideLoss(size, frequencyHz);
    if (!copper.ok)
      return `${frequency(frequencyHz)} does not pass ${guide} of ${name}: it lies below its cut-off`;
    if (lossDbPerM < BEST_METAL * copper.lossDbPerM) {
      return `${name} loses ${trimmed(lossDbPerM, 3)} dB/m at ${frequency(frequencyHz)}; smooth copper of ${guide} loses ${trimmed(copper.lossDbPerM, 3)} dB/m`;
    }
  }
  return undefined;
}
