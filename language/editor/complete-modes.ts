/** Widths and modulations that the hop's radio has. */

import type { RadioMode } from "../../shared/design/catalogue.js";
import { modesOfWidth } from "../../shared/design/change.js";
import { bandwidth, bitRate, dbm } from "../../shared/format/numbers.js";
import { quantityOf } from "../facts/fact.js";
import type { ArgSpec, Property } from "../schema/types.js";
import type { Expected } from "./expected.js";
import type { Proposal } from "./proposal.js";
import { channelWidthHz, hopRadio, type Scene } from "./scene.js";

/** Widths for `mode` and `modes` of a hop; that of the channel first. */
export function modeWidths(scene: Scene, expected: Expected, spec: ArgSpec): readonly Proposal[] {
  if (!isModeOfHop(scene, expected) || spec.name !== "bandwidth") return [];
  const channelHz = channelWidthHz(scene);
  const widths = [...new Set(hopRadio(scene)?.modes.map((mode) => mode.bandwidthHz))].sort((a, b) => a - b);
  return widths.map((widthHz) => {
    const same = channelHz !== undefined && Math.abs(channelHz - widthHz) < 1000;
    const label = bandwidth(widthHz);
    return {
      label,
      kind: "value",
      insertText: label,
      detail: same ? "the channel's width" : hopRadio(scene)?.name,
      rank: same ? -1 : 0,
    };
  });
}

/** `mode` and `modes` of a hop with the width of its channel and what its radio has there. */
export function modesSnippet({ name }: Property, scene: Scene): string | undefined {
  if ((name !== "mode" && name !== "modes") || !scene.caret.context.endsWith("hop")) return undefined;
  const radio = hopRadio(scene);
  const widthHz = channelWidthHz(scene) ?? radio?.modes[0]?.bandwidthHz;
  const modes = radio && widthHz !== undefined ? modesOfWidth(radio, widthHz) : [];
  if (modes.length === 0) return undefined;
  const words = modes.map(({ modulation }) => modulation.replace(/[\\,|]/g, "\\$&"));
  const from = `${name} ${bandwidth(widthHz!)} \${1|${words.join(",")}|}`;
  return name === "mode" ? from : `${from} to \${2|${words.toReversed().join(",")}|}`;
}

/** Modulations at the width written; in a radio's own `mode`, those that the design's radios name. */
export function modulations(scene: Scene, expected: Expected): readonly Proposal[] {
  const widthHz = quantityOf(expected.fact, "bandwidth");
  if (!isModeOfHop(scene, expected)) return inAnyRadio(scene);
  const modes =
    hopRadio(scene)?.modes.filter(
      (mode) => widthHz !== undefined && Math.abs(mode.bandwidthHz - widthHz) < 1000,
    ) ?? [];
  return [...modes]
    .sort((a, b) => (a.bitRateBps ?? 0) - (b.bitRateBps ?? 0))
    .map((mode) => ({
      label: mode.modulation,
      kind: "value",
      insertText: mode.modulation,
      detail: modeText(mode),
    }));
}

/** `310 Mbit/s, 20.0 dBm, threshold -69.0 dBm` */
export function modeText({ bitRateBps, transmitPowerDbm, thresholdDbm, requiredSnrDb }: RadioMode): string {
  return [
    bitRateBps === undefined ? "" : bitRate(bitRateBps),
    transmitPowerDbm === undefined ? "" : dbm(transmitPowerDbm),
    thresholdDbm === undefined ? "" : `threshold ${dbm(thresholdDbm)}`,
    requiredSnrDb === undefined ? "" : `SNR ${requiredSnrDb} dB`,
  ]
    .filter(Boolean)
    .join(", ");
}

function isModeOfHop({ caret }: Scene, { property }: Expected): boolean {
  return (property.name === "mode" || property.name === "modes") && caret.context.endsWith("hop");
}

function inAnyRadio({ model }: Scene): readonly Proposal[] {
  const words = new Set(
    model
      .names("radio")
      .flatMap((name) => model.lookup.radio(name)?.modes.map((mode) => mode.modulation) ?? []),
  );
  return [...words].map((label) => ({ label, kind: "value", insertText: label }));
}
