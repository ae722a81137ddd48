/** Hover on values: other units, frequencies of a channel, figures of a mode. */

import type { Position } from "../../shared/design/design.js";
import { bandwidth, frequency, yearly } from "../../shared/format/numbers.js";
import { wavelengthM } from "../../shared/propagation/constants.js";
import { channelFrequencies } from "../../shared/spectrum/channel-plan.js";
import { channelStandingText } from "../../shared/spectrum/standing.js";
import { shiftWords, type WrittenSystem } from "../../shared/terrain/written-projected.js";
import { type Argument, type Fact, numberOf, quantityOf, type Value, wordOf } from "../facts/fact.js";
import type { DesignModel } from "../model/design-model.js";
import { modeText } from "./complete-modes.js";
import { radioNameOf } from "./modulation.js";
import { inOtherUnits } from "./other-units.js";
import { decimalText, positionText } from "./position-text.js";
import type { FactAt } from "./walk.js";

type Quantity = Extract<Value, { type: "quantity" }>;

export function quantityText(fact: Fact, arg: Argument, { base, dimension, unit }: Quantity): string {
  const others = [...inOtherUnits(base, dimension, unit), ...besides(fact, arg, base, dimension)];
  return `**${writtenIn(fact, arg)}**${others.length > 0 ? ` = ${others.join(" = ")}` : ""}`;
}

/** What a figure means beside its unit: minutes a year of a percentage, the wavelength of a frequency. */
function besides(fact: Fact, { spec }: Argument, base: number, dimension: Quantity["dimension"]): string[] {
  if (dimension === "percentage") {
    return [fact.property.name === "availability" ? `${yearly(100 - base)} out` : yearly(base)];
  }
  // A width or an offset is no carrier and has no wavelength of interest.
  const carrier =
    dimension === "frequency" &&
    base >= 1e9 &&
    !["width", "bandwidth", "step", "go", "return", "spacing"].includes(spec.name);
  return carrier ? [`wavelength ${Number((wavelengthM(base) / 1e-3).toPrecision(4))} mm`] : [];
}

export function positionHover(position: Position, system?: WrittenSystem): string {
  const degrees = `**${positionText(position)}** = ${decimalText(position)} (WGS84, latitude first)`;
  if (!system) return degrees;
  const shift = shiftWords(system);
  return `${degrees}, from ${system.name}${shift === "" ? "" : `; ${shift}`}`;
}

/** Both frequencies of a channel and how far they are confirmed. */
export function channelText({ fact, path }: FactAt, model: DesignModel): string | undefined {
  if (fact.property.name !== "channel") return undefined;
  const plan = wordOf(fact, "plan");
  const widthHz = quantityOf(fact, "width");
  const number = numberOf(fact, "number");
  if (plan === undefined || widthHz === undefined || number === undefined) return undefined;
  const radioName = radioNameOf(path.at(-1)?.facts ?? [], model);
  const radio = radioName === undefined ? undefined : model.lookup.radio(radioName);
  const found = channelFrequencies(plan, widthHz, number, model.lookup.plans(), radio);
  if ("what" in found) return found.message;
  return `**channel ${number}** of ${found.plan}, ${bandwidth(widthHz)}: low half ${frequency(found.lowHz)}, high half ${frequency(found.highHz)}\n\nThe plan's figures: ${channelStandingText(found, number)}.`;
}

/** Rate, power and threshold of a modulation of the hop's radio. */
export function modulationText(
  { fact, path }: FactAt,
  modulation: string,
  model: DesignModel,
): string | undefined {
  const hop = path.at(-1);
  if (!hop?.context?.endsWith("hop")) return undefined;
  const radioName = radioNameOf(hop.facts, model);
  const radio = radioName === undefined ? undefined : model.lookup.radio(radioName);
  const widthHz = quantityOf(fact, "bandwidth");
  const mode = radio?.modes.find(
    (one) =>
      one.modulation === modulation && widthHz !== undefined && Math.abs(one.bandwidthHz - widthHz) < 1000,
  );
  return (
    radio &&
    mode &&
    `**${modulation}** of ${radio.name} at ${bandwidth(mode.bandwidthHz)}: ${modeText(mode) || "no figures in the catalogue"}`
  );
}

function writtenIn(fact: Fact, arg: Argument): string {
  return fact.statement.atoms
    .filter((atom) => atom.start >= arg.start && atom.end <= arg.end)
    .map((atom) => atom.text)
    .join(" ");
}
