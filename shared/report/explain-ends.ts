/** Cable, supply and test voltage of the units at both ends of a hop, as its rules judge them. */
import type { Design, Hop } from "../design/design.js";
import { ethernetFeeds, MOST_TO_DEVICE_W } from "../equipment/ethernet-feeds.js";
import { ifCableLoss } from "../equipment/if-cable.js";
import { unitFeed, unitLine } from "../equipment/power.js";
import { rssiVoltage } from "../equipment/rssi.js";
import { type SiteEnd, type SitePlan, sitePlans } from "../equipment/site-plan.js";
import type { InputUsed } from "../evaluate/account/input.js";
import type { DirectionResult } from "../evaluate/account/level-result.js";
import type { HopResult } from "../evaluate/account/result.js";
import { dbm, trimmed } from "../format/numbers.js";
import { type Explanation, explanation } from "./explanation.js";

/** @param design what the hop stands in: its sites' equipment gives the run of the cables and the ports */
export function explainEnds(hop: Hop, result: HopResult, design: Design): Explanation[] {
  const plans = sitePlans(design);
  const ends = hop.ends.flatMap(({ site }, index) => {
    const plan = plans.get(site.name);
    const here = plan?.ends.filter((one) => one.hop.name === hop.name);
    // A hop that leads back to its own site has both ends there.
    const end = here?.at(here.length > 1 ? index : 0);
    return plan && end ? [{ plan, end }] : [];
  });
  return [
    ...ends.flatMap(({ plan, end }) => [...cableOf(end, plan), ...supplyOf(end, plan), ...portOf(end, plan)]),
    ...result.directions.flatMap((direction) => voltageOf(hop, direction)),
  ];
}

/** The length as it is stated or estimated. */
function lengthInput(
  { end }: SiteEnd,
  { lengthM, estimated }: { readonly lengthM: number; readonly estimated: boolean },
): InputUsed {
  return {
    code: "cable-length",
    site: end.site.name,
    cable: end.installation?.cable?.name ?? "the cable",
    lengthM,
    ...(estimated ? ({ origin: "default", standing: "estimated" } as const) : { origin: "design" }),
  };
}

function cableOf(end: SiteEnd, plan: SitePlan): Explanation[] {
  const found = ifCableLoss(end, plan);
  const cable = end.end.installation?.cable;
  const radio = end.hop.radio?.name;
  if (found === undefined || cable === undefined || radio === undefined) return [];
  const { lossDb, limitDb, frequencyHz, lossDbPerM, points, greatestErrorPercent } = found;
  const ofCatalogue = cable.loss.flatMap((one): InputUsed[] =>
    one.frequencyHz === undefined
      ? []
      : [
          {
            code: "cable-loss",
            cable: cable.name,
            lossDbPerM: one.lossDbPerM,
            frequencyHz: one.frequencyHz,
            origin: "catalogue",
          },
        ],
  );
  const elsewhere = points === 1 && cable.loss.every((one) => one.frequencyHz !== frequencyHz);
  return [
    explanation(
      `loss of the IF cable at ${plan.site.name}`,
      `${trimmed(lossDb, 2)} dB, the unit equalizes ${trimmed(limitDb, 2)} dB`,
      {
        methods: ["if-cable"],
        inputs: [
          lengthInput(end, found),
          ...ofCatalogue,
          { code: "if-limit", radio, lossDb: limitDb, frequencyHz, origin: "catalogue" },
        ],
        steps: [
          { name: "highest IF", value: `${trimmed(frequencyHz / 1e6, 1)} MHz` },
          { name: "loss per 100 m at it", value: `${trimmed(100 * lossDbPerM, 3)} dB` },
          ...(points > 1
            ? [
                {
                  name: "greatest error of the law at the catalogue's points",
                  value: `${trimmed(greatestErrorPercent, 2)} %`,
                },
              ]
            : []),
        ],
        notes: [
          { code: "if-loss-equalized" },
          ...(elsewhere ? [{ code: "cable-of-one-point", cable: cable.name } as const] : []),
        ],
      },
    ),
  ];
}

function supplyOf(end: SiteEnd, plan: SitePlan): Explanation[] {
  const [line, feed] = [unitLine(end, plan), unitFeed(end, plan)];
  const { radio } = end.hop;
  const cable = end.end.installation?.cable;
  if (line === undefined || feed === undefined || radio === undefined || cable === undefined) return [];
  const leastV = radio.unit?.leastSupplyV;
  const least: InputUsed[] =
    leastV === undefined
      ? []
      : [{ code: "least-supply", radio: radio.name, voltageV: leastV, origin: "catalogue" }];
  const starts = leastV === undefined ? "" : `, it starts at ${trimmed(leastV, 1)} V`;
  const greatestPowerW = feed.ok ? feed.greatestPowerW : feed.steps?.greatestPowerW;
  return [
    explanation(
      `voltage at the unit at ${plan.site.name}`,
      feed.ok ? `${feed.loadV.toFixed(1)} V${starts}` : "none: the line cannot deliver its power",
      {
        methods: ["unit-supply"],
        inputs: [
          { code: "service-voltage", voltageV: line.sourceV, origin: "default" },
          { code: "consumption", part: radio.name, drawsW: line.loadW, origin: "catalogue" },
          { code: "loop-resistance", cable: cable.name, ohmPerM: cable.loopOhmPerM!, origin: "catalogue" },
          lengthInput(end, line),
          ...least,
        ],
        steps: [
          { name: "source, Vs", value: `${trimmed(line.sourceV, 1)} V` },
          { name: "load, P", value: `${trimmed(line.loadW, 1)} W` },
          { name: "resistance of the loop, R", value: `${trimmed(line.loopOhm, 4)} ohm` },
          ...(feed.ok
            ? [
                { name: "current", value: `${trimmed(feed.currentA, 3)} A` },
                { name: "voltage drop", value: `${trimmed(feed.dropV, 2)} V` },
                { name: "lost in the cable", value: `${trimmed(feed.lossW, 2)} W` },
              ]
            : []),
          ...(greatestPowerW === undefined || line.loopOhm === 0
            ? []
            : [{ name: "most the line delivers, Vs^2 / 4 R", value: `${trimmed(greatestPowerW, 1)} W` }]),
        ],
      },
    ),
  ];
}

/** Of a unit on copper Ethernet: what its port gives. */
function portOf(end: SiteEnd, plan: SitePlan): Explanation[] {
  const feed = ethernetFeeds(plan).find((one) => one.end === end);
  const drawsW = end.hop.radio?.unit?.drawsW;
  if (feed?.unitW === undefined || drawsW === undefined) return [];
  return [
    explanation(
      `power over copper Ethernet at ${plan.site.name}`,
      `${trimmed(feed.unitW, 1)} W from the port of each unit`,
      {
        methods: ["copper-ethernet"],
        inputs: [
          { code: "consumption", part: end.hop.radio!.name, drawsW, origin: "catalogue" },
          ...(feed.length === undefined ? [] : [lengthInput(end, feed.length)]),
        ],
        steps: [
          { name: "unit draws", value: `${trimmed(drawsW, 1)} W, at most ${MOST_TO_DEVICE_W} W reach one` },
          { name: "lost in the cable", value: `${trimmed(feed.unitW - drawsW, 2)} W` },
          { name: "units fed", value: `${feed.cards.length} of ${feed.units}` },
        ],
      },
    ),
  ];
}

/** What is read at the receiving unit when the hop is turned up: of each state that its branches can be in. */
function voltageOf({ radio }: Hop, { from, to, paths, receivedLevelDbm }: DirectionResult): Explanation[] {
  const points = radio?.unit?.rssi ?? [];
  if (radio === undefined || points.length === 0) return [];
  const levels = paths?.map((path) => ({
    state: `, ${path.from} to ${path.to}${path.state === "normal" ? "" : `, ${path.state}`}`,
    levelDbm: path.receivedLevelDbm,
  })) ?? [{ state: "", levelDbm: receivedLevelDbm }];
  return levels.map(({ state, levelDbm }) => {
    const found = rssiVoltage(points, levelDbm);
    const between = found.ok ? [...new Set([found.from, found.to])] : points;
    return explanation(
      `test voltage at ${to}, ${from} to ${to}${state}`,
      found.ok ? `${found.voltageV.toFixed(2)} V` : "none: the level lies outside the radio's curve",
      {
        methods: ["test-voltage"],
        inputs: between.map((point) => ({
          code: "rssi-point",
          radio: radio.name,
          ...point,
          origin: "catalogue",
        })),
        steps: [{ name: "received level, mode at line-up", value: dbm(levelDbm) }],
        notes: paths === undefined ? [] : [{ code: "standby-measured-by-switching" }],
      },
    );
  });
}
