/** Wind force and weight of what hangs on the structure of a site. */
import type { SitePlan } from "../equipment/site-plan.js";
import { type HungPart, type StructureLoad, structureLoad } from "../equipment/structure-load.js";
import type { InputUsed } from "../evaluate/account/input.js";
import type { Note } from "../evaluate/account/note.js";
import { metres, trimmed } from "../format/numbers.js";
import { type Explanation, explanation } from "./explanation.js";
import type { Step } from "./steps.js";

export function structureOf(plan: SitePlan): Explanation[] {
  const load = structureLoad(plan);
  const { parts, weightKg, leftOut } = load;
  if (parts.length === 0) return [];
  const weightLimitKg = plan.equipment?.weightLimitKg;
  const noMounts = leftOut.filter((one) => one === "mounts");
  return [
    ...windOf(plan, load),
    explanation(
      `weight on the structure of ${plan.site.name}`,
      `${trimmed(weightKg, 1)} kg${weightLimitKg === undefined ? "" : `, it takes ${trimmed(weightLimitKg, 1)} kg`}`,
      {
        methods: ["hung-weight"],
        inputs:
          weightLimitKg === undefined
            ? []
            : [{ code: "weight-limit", massKg: weightLimitKg, origin: "design" }],
        steps: parts.map(({ name, weightKg: ownKg }) => ({
          name: `weight of ${name}`,
          value: ownKg === undefined ? "not known, not counted" : `${trimmed(ownKg, 1)} kg`,
        })),
        notes: aid(
          parts.flatMap(({ name, weightKg: ownKg }) => (ownKg === undefined ? [name] : [])),
          ["ice", ...noMounts],
        ),
      },
    ),
  ];
}

function windOf(
  { site, equipment }: SitePlan,
  { parts, windN: forceN, leftOut }: StructureLoad,
): Explanation[] {
  const { wind, windLimitN } = equipment ?? {};
  if (wind === undefined || forceN === undefined) return [];
  const blown = parts.flatMap((one) => (one.wind === undefined ? [] : [{ ...one, wind: one.wind }]));
  const limit = windLimitN === undefined ? "" : `, it takes ${trimmed(windLimitN / 1000, 2)} kN`;
  const limits: InputUsed[] =
    windLimitN === undefined ? [] : [{ code: "wind-limit", forceN: windLimitN, origin: "design" }];
  return [
    explanation(`wind force on the structure of ${site.name}`, `${trimmed(forceN / 1000, 2)} kN${limit}`, {
      methods: ["wind-force"],
      inputs: [
        {
          code: "basic-wind",
          speedMPerS: wind.basicSpeedMPerS,
          terrainClass: wind.terrain,
          origin: "design",
        },
        ...dragOf(blown),
        ...limits,
      ],
      steps: blown.map(windStep),
      notes: aid(
        blown.flatMap(({ name, wind: { areaM2 } }) => (areaM2 === undefined ? [name] : [])),
        leftOut,
      ),
    }),
  ];
}

type Blown = HungPart & { readonly wind: NonNullable<HungPart["wind"]> };

function dragOf(parts: readonly Blown[]): InputUsed[] {
  const drag = new Map(parts.map((part) => [part.name, part.wind]));
  return [...drag].map(([part, { coefficient, stated }]) => ({
    code: "drag",
    part,
    coefficient,
    origin: stated ? "catalogue" : "default",
  }));
}

function windStep({ name, wind: { areaM2, coefficient, heightM, peakPressurePa, forceN } }: Blown): Step {
  const at = `wind on ${name} at ${metres(heightM)}`;
  if (areaM2 === undefined || peakPressurePa === undefined || forceN === undefined)
    return { name: at, value: "not known, not counted" };
  return {
    name: at,
    value: `${trimmed(forceN, 0)} N = ${trimmed(peakPressurePa, 1)} N/m2 x ${trimmed(coefficient, 2)} x ${trimmed(areaM2, 3)} m2`,
  };
}

function aid(unknown: readonly string[], leftOut: readonly string[]): readonly Note[] {
  return [
    { code: "structure-planning-aid", leftOut },
    ...(unknown.length === 0 ? [] : [{ code: "parts-not-counted", parts: [...new Set(unknown)] } as const]),
  ];
}
