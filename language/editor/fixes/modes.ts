/** Fixes about a hop's mode and polarization. */
import { bandwidth } from "../../../shared/format/numbers.js";
import { isWider } from "../../../shared/rules/mode-width.js";
import { argument, factNamed } from "../../facts/fact.js";
import { hopInText, replaceArgument, stateFact } from "./edits.js";
import type { QuickFix, ToMend } from "./fix.js";
import { decision } from "./mounting.js";

/** The same modulations in a width that the radio has and every channel of the hop holds, the widest first. */
export function narrowMode(toMend: ToMend): readonly QuickFix[] {
  const { model, judged } = toMend;
  const block = judged && hopInText(model, judged.hop.name);
  if (!block) return [];
  const { radio, modes, channel, furtherChannels = [] } = judged.hop;
  const channels = [channel, ...furtherChannels].filter((one) => one !== undefined);
  const nowHz = modes[0]?.bandwidthHz ?? 0;
  const widths = [...new Set(radio?.modes.map(({ bandwidthHz }) => bandwidthHz))]
    .filter((hz) => hz < nowHz && channels.every(({ bandwidthHz }) => !isWider(hz, bandwidthHz)))
    .sort((a, b) => b - a);
  const stated = factNamed(block.fact.facts, "mode") ?? factNamed(block.fact.facts, "modes");
  const arg = argument(stated, "bandwidth");
  return widths.flatMap((hz): QuickFix[] => {
    const [lowest, highest] = [modes[0]!.modulation, modes.at(-1)!.modulation];
    const edit = arg
      ? replaceArgument(block.file, arg, bandwidth(hz))
      : modes.length > 1
        ? stateFact(model, block, "modes", `modes ${bandwidth(hz)} ${lowest} to ${highest}`)
        : stateFact(model, block, "mode", `mode ${bandwidth(hz)} ${lowest}`);
    return edit
      ? [decision(toMend, `Take ${modes.length > 1 ? "modes" : "the mode"} of ${bandwidth(hz)}`, [edit])]
      : [];
  });
}

/** Either polarization for the first carrier. */
export function statePolarization(toMend: ToMend): readonly QuickFix[] {
  const block = toMend.judged && hopInText(toMend.model, toMend.judged.hop.name);
  return ["vertical", "horizontal"].flatMap((polarization): QuickFix[] => {
    const edit = block && stateFact(toMend.model, block, "polarization", `polarization ${polarization}`);
    return edit ? [decision(toMend, `State polarization ${polarization} for the first carrier`, [edit])] : [];
  });
}
