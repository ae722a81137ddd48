/** What a site draws, bears and holds, as its rules judge it: each sum with its addends, each place with why it is that. */
import type { Design } from "../design/design.js";
import { USUAL_BATTERY } from "../equipment/battery.js";
import { chassisName } from "../equipment/chassis-name.js";
import { coolingAir } from "../equipment/cooling-air.js";
import { LOWEST_SERVICE_V } from "../equipment/dc-feed.js";
import { type LoadPart, siteLoad } from "../equipment/power.js";
import { siteBattery } from "../equipment/site-battery.js";
import { type SitePlan, sitePlans } from "../equipment/site-plan.js";
import type { InputUsed } from "../evaluate/account/input.js";
import type { Note } from "../evaluate/account/note.js";
import { trimmed } from "../format/numbers.js";
import { placesOf } from "./explain-places.js";
import { structureOf } from "./explain-structure.js";
import { type Explanation, explanation } from "./explanation.js";
import type { Step } from "./steps.js";

/** Every figure of the equipment of a site. @returns undefined where no hop ends and no equipment is stated */
export function explainSite(site: string, design: Design): Explanation[] | undefined {
  const plan = sitePlans(design).get(site);
  return (
    plan && [
      ...consumptionOf(plan),
      ...chassisOf(plan),
      ...batteryOf(plan),
      ...structureOf(plan),
      ...placesOf(plan),
    ]
  );
}

function consumptionOf(plan: SitePlan): Explanation[] {
  const { totalW, parts, unknown } = siteLoad(plan);
  if (parts.length === 0) return [];
  const plantW = plan.equipment?.plantW;
  const plant: InputUsed[] =
    plantW === undefined
      ? []
      : [{ code: "plant-power", site: plan.site.name, powerW: plantW, origin: "design" }];
  const gives = plantW === undefined ? "" : `, its plant gives ${wattsOf(plantW)}`;
  return [
    explanation(`consumption of ${plan.site.name}`, `${wattsOf(totalW)}${gives}`, {
      ...ofParts(parts, plan),
      inputs: [...ofParts(parts, plan).inputs, ...plant],
      notes: notCounted(unknown),
    }),
  ];
}

function chassisOf(plan: SitePlan): Explanation[] {
  const load = siteLoad(plan);
  return load.chassis.flatMap(({ chassis, feedW, heatW }) => {
    const own = load.parts.filter((part) => part.chassis === chassis);
    const indoors = own.filter(({ kind }) => kind !== "unit");
    const of = chassisName(chassis, plan);
    const name = `${of} at ${plan.site.name}`;
    const { supplyW, heatLimitW } = chassis.chassis ?? {};
    const air = coolingAir(plan, heatW);
    return [
      explanation(
        `consumption through ${name}`,
        `${wattsOf(feedW)}${supplyW === undefined ? "" : `, its supply gives ${wattsOf(supplyW)}`}`,
        {
          ...ofParts(own, plan),
          inputs: limited(ofParts(own, plan).inputs, "chassis-supply", of, supplyW),
          notes: notCounted(unknownOf(own)),
        },
      ),
      explanation(
        `heat of ${name}`,
        `${wattsOf(heatW)}${heatLimitW === undefined ? "" : `, its fan carries away ${wattsOf(heatLimitW)}`}`,
        {
          methods: ["consumption", ...(air.ok ? (["cooling-air"] as const) : [])],
          inputs: [
            ...limited(ofParts(indoors, plan).inputs, "heat-limit", of, heatLimitW),
            ...groundOf(plan),
            ...(air.ok ? [{ code: "air-warming", riseK: air.riseK, origin: "default" } as const] : []),
          ],
          steps: [
            ...ofParts(indoors, plan).steps,
            ...(air.ok
              ? [
                  {
                    name: `air, warmed by ${air.riseK} K`,
                    value: `${trimmed(air.flowM3PerH, 1)} m3/h`,
                  },
                ]
              : []),
          ],
          notes: notCounted(unknownOf(indoors)),
        },
      ),
    ];
  });
}

function limited(
  inputs: readonly InputUsed[],
  code: "chassis-supply" | "heat-limit",
  chassis: string,
  powerW: number | undefined,
): readonly InputUsed[] {
  return powerW === undefined ? inputs : [...inputs, { code, chassis, powerW, origin: "catalogue" }];
}

/** Thin air carries less: the height counts where it is stated. */
function groundOf({ site: { name, groundM } }: SitePlan): InputUsed[] {
  return groundM === undefined ? [] : [{ code: "ground", site: name, heightM: groundM, origin: "design" }];
}

function unknownOf(parts: readonly LoadPart[]): readonly string[] {
  return [...new Set(parts.flatMap(({ name, drawsW }) => (drawsW === undefined ? [name] : [])))];
}

function notCounted(unknown: readonly string[]): readonly Note[] {
  return unknown.length === 0 ? [] : [{ code: "parts-not-counted", parts: unknown }];
}

/** Methods, inputs and steps of a sum over parts. */
function ofParts(parts: readonly LoadPart[], plan: SitePlan) {
  const byCoax = parts.some(
    ({ kind, lossW, hop }) => kind === "unit" && lossW !== undefined && !onCopper(hop, plan),
  );
  const byCopper = parts.some(
    ({ kind, lossW, hop }) => kind === "unit" && lossW !== undefined && onCopper(hop, plan),
  );
  const drawn = new Map<string, number>();
  for (const { name, drawsW, lossW = 0 } of parts) if (drawsW !== undefined) drawn.set(name, drawsW - lossW);
  return {
    methods: [
      "consumption",
      ...(byCoax ? (["unit-supply"] as const) : []),
      ...(byCopper ? (["copper-ethernet"] as const) : []),
    ] as const,
    inputs: [
      ...[...drawn].map(
        ([part, drawsW]): InputUsed => ({
          code: "consumption",
          part,
          drawsW,
          origin: "catalogue",
        }),
      ),
      ...(byCoax
        ? [{ code: "service-voltage", voltageV: LOWEST_SERVICE_V, origin: "default" } as const]
        : []),
    ],
    steps: parts.map((part) => partStep(part, plan)),
  };
}

function onCopper(hop: string | undefined, { ends }: SitePlan): boolean {
  return ends.find((one) => one.hop.name === hop)?.end.installation?.cable?.kind === "ethernet";
}

function partStep(part: LoadPart, plan: SitePlan): Step {
  const { kind, name, chassis, slot, hop, count, drawsW, lossW } = part;
  const through = chassis && chassisName(chassis, plan);
  const places = {
    chassis: `chassis ${through}, empty`,
    card: `card ${name} in slot ${slot} of ${through}`,
    unit: `${count} ${count === 1 ? "unit" : "units"} ${name} of ${hop}${through === undefined ? ", by no chassis" : ` through ${through}`}`,
  };
  if (drawsW === undefined) return { name: places[kind], value: "not known, not counted" };
  const lost = lossW === undefined ? "" : `, ${trimmed(lossW, 2)} W of each lost in its cable`;
  const each = count === 1 ? "" : ` = ${count} x ${trimmed(drawsW, 2)} W`;
  return { name: places[kind], value: `${trimmed(count * drawsW, 2)} W${each}${lost}` };
}

function batteryOf(plan: SitePlan): Explanation[] {
  const found = siteBattery(plan);
  if (found === undefined) return [];
  const { capacityAh, nominalV, depthOfDischarge, autonomyH, loadW, hours, unknown } = found;
  const share = USUAL_BATTERY.endOfLifeFactor;
  const stated = plan.equipment?.battery?.depthOfDischarge !== undefined;
  const asked: InputUsed[] =
    autonomyH === undefined ? [] : [{ code: "autonomy", hours: autonomyH, origin: "design" }];
  const asks = autonomyH === undefined ? "" : `, ${trimmed(autonomyH, 1)} h are asked`;
  return [
    explanation(`hours on battery at ${plan.site.name}`, `${trimmed(hours, 1)} h${asks}`, {
      methods: ["battery"],
      inputs: [
        { code: "battery", capacityAh, nominalV, origin: "design" },
        { code: "depth-of-discharge", share: depthOfDischarge, origin: stated ? "design" : "default" },
        { code: "end-of-life", share, origin: "default" },
        ...asked,
      ],
      steps: [
        { name: "energy when charged, C V", value: `${trimmed(capacityAh * nominalV, 0)} Wh` },
        { name: "energy that may be taken, C V DoD k", value: `${trimmed(hours * loadW, 0)} Wh` },
        { name: "load, P", value: wattsOf(loadW) },
      ],
      notes: [{ code: "battery-at-rated-rate" }, ...notCounted(unknown)],
    }),
  ];
}

function wattsOf(powerW: number): string {
  return `${trimmed(powerW, 1)} W`;
}
