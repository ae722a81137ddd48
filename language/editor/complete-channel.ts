/** Plans, widths and numbers of `channel`, the ones that the hop's radio can use first. */
import { frequency } from "../../shared/format/numbers.js";
import {
  channelFrequencies,
  hasWidth,
  planNames,
  plansFor,
  plansNamed,
} from "../../shared/spectrum/channel-plan.js";
import type { ChannelPlan, ChannelRow } from "../../shared/spectrum/channel-plans.data.js";
import { channelStandingText, isReliable, standingText } from "../../shared/spectrum/standing.js";
import { quantityOf, wordOf } from "../facts/fact.js";
import type { DesignModel } from "../model/design-model.js";
import { caretAt } from "./caret.js";
import { type Expected, expectedAt } from "./expected.js";
import type { Proposal } from "./proposal.js";
import { hopName, hopRadio, type Scene } from "./scene.js";

export function channelPlans(scene: Scene): readonly Proposal[] {
  const own = scene.model.lookup.plans();
  const radio = hopRadio(scene);
  const usable = new Set(radio && plansFor(radio, own));
  return planNames(own).flatMap((id): Proposal[] => {
    const plan = plansNamed(id, own)[0];
    if (!plan) return [];
    const name = shortName(id, own);
    return [
      {
        label: name,
        kind: "name",
        insertText: name,
        detail: plan.band || "plan of this design",
        documentation: planText(plan),
        rank: usable.has(plan) ? 0 : own.includes(plan) ? 1 : 2,
      },
    ];
  });
}

/** Channel widths of the plan written, narrowest first. */
export function channelWidths(scene: Scene, expected: Expected): readonly Proposal[] {
  const usable = new Set(hopRadio(scene)?.modes.map((mode) => Math.round(mode.bandwidthHz / 1000)));
  const rows = plansOf(scene, expected).flatMap((plan) => plan.rows);
  const widths = [...new Set(rows.map((row) => row.widthMHz))].sort((a, b) => a - b);
  return widths.map((widthMHz) => {
    const fits = usable.has(Math.round(widthMHz * 1000));
    const label = `${widthMHz} MHz`;
    return {
      label,
      kind: "value",
      insertText: label,
      detail: fits ? "the radio has modes of this width" : numbersText(rows, widthMHz),
      rank: fits ? 0 : 1,
    };
  });
}

/** Channel numbers of the width written, each with its frequencies. */
export function channelNumbers(scene: Scene, expected: Expected): readonly Proposal[] {
  const plan = wordOf(expected.fact, "plan");
  const widthHz = quantityOf(expected.fact, "width");
  if (plan === undefined || widthHz === undefined) return [];
  const rows = plansOf(scene, expected).flatMap(({ rows }) => rows.filter((row) => hasWidth(row, widthHz)));
  const numbers = [
    ...new Set(
      rows.flatMap(({ first, last }) =>
        Array.from({ length: Math.max(0, last - first + 1) }, (_, i) => first + i),
      ),
    ),
  ];
  return numbers
    .sort((a, b) => a - b)
    .flatMap((number): Proposal[] => {
      const found = channelFrequencies(plan, widthHz, number, scene.model.lookup.plans(), hopRadio(scene));
      if ("what" in found) return [];
      const label = String(number);
      const doubt = isReliable(found, number) ? "" : ", not confirmed";
      const place = scene.tried?.findIndex((one) => one.number === number) ?? -1;
      const figures = place < 0 ? "" : `; ${scene.tried![place]!.figures}`;
      return [
        {
          label,
          kind: "value",
          insertText: label,
          detail: `low ${frequency(found.lowHz)}, high ${frequency(found.highHz)}${doubt}${figures}`,
          documentation: `${found.plan}: ${channelStandingText(found, number)}.`,
          ...(scene.tried && { rank: place < 0 ? scene.tried.length : place }),
        },
      ];
    });
}

function plansOf({ model }: Scene, { fact }: Expected): readonly ChannelPlan[] {
  const name = wordOf(fact, "plan");
  return name === undefined ? [] : plansNamed(name, model.lookup.plans());
}

/** `F.595` where no other plan begins so, else the whole identifier. */
function shortName(id: string, own: readonly ChannelPlan[]): string {
  const start = id.split("-")[0]!;
  return start !== id && plansNamed(start, own).length === 1 ? start : id;
}

function planText(plan: ChannelPlan): string {
  const rows = plan.rows.map(
    (row) => `- ${row.widthMHz} MHz: channels ${row.first} to ${row.last}, ${standingText(row)}`,
  );
  return [plan.documents.join("; "), rows.join("\n")].filter(Boolean).join("\n\n");
}

function numbersText(rows: readonly ChannelRow[], widthMHz: number): string {
  const same = rows.filter((row) => row.widthMHz === widthMHz);
  return same.map(({ first, last }) => `channels ${first} to ${last}`).join(", ");
}

/** A hop's channel whose number is written or asked for at a place, with plan and width before it. */
export function numberAskedAt(
  model: DesignModel,
  path: string,
  offset: number,
): { readonly hop: string; readonly plan: string; readonly bandwidthHz: number } | undefined {
  const file = model.file(path);
  const caret = file && caretAt(file, offset);
  const expected = caret && caret.before.length > 0 ? expectedAt(caret) : undefined;
  if (expected?.property.name !== "channel" || !expected.values.some(({ name }) => name === "number"))
    return undefined;
  const hop = hopName({ model, path, caret: caret! });
  const name = wordOf(expected.fact, "plan") ?? "";
  const bandwidthHz = quantityOf(expected.fact, "width");
  const [plan, ...others] = plansNamed(name, model.lookup.plans());
  if (hop === undefined || plan === undefined || bandwidthHz === undefined) return undefined;
  return { hop, plan: others.length === 0 ? plan.id : name, bandwidthHz };
}
