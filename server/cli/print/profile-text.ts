import type { ClearanceResult, EndGeometry } from "../../../shared/evaluate/account/path-result.js";
import type { HopResult } from "../../../shared/evaluate/account/result.js";
import { degrees, fresnelAsked, kFactor, kilometres, metres } from "../../../shared/format/numbers.js";
import { clearanceAgainst } from "../../../shared/report/clearance-against.js";
import { bulgeM, drawnLine, type ProfileLine } from "../../../shared/report/draw/profile-points.js";
import { drawProfileText } from "../../../shared/report/draw/profile-text.js";
import type { Paint } from "../streams.js";
import type { ProfileFormat } from "./format.js";
import { lineOf } from "./profile-line.js";
import { safe } from "./safe.js";

export const profileText: ProfileFormat = {
  name: "text",
  what: "for reading: a drawing in characters, heights and clearances",
  print: (path) => printText(path.result, lineOf(path, drawnLine), path.paint),
};

function* printText(result: HopResult, line: ProfileLine, paint: Paint): Iterable<string> {
  const [from, to] = result.ends;
  yield `${paint("bold", safe(`${result.hop}: ${kilometres(line.lengthM)} from ${from} to ${to}`))}\n\n`;
  const rows = drawProfileText(line, result);
  if (rows.length === 0) {
    yield "No terrain has a height along this path, so nothing is drawn: name terrain that covers it\nin the network, or a survey in the hop.\n\n";
  } else {
    for (const row of rows) yield `${coloured(safe(row), paint)}\n`;
    const bulge = metres(bulgeM(line.lengthM / 2, line.lengthM, line.kFactor));
    yield `\nGround with the Earth's bulge for ${kFactor(line.kFactor)}, ${bulge} at mid-path.\n`;
    yield "─ ray   · lower edge of the first Fresnel zone   x ground reaches the ray\n? no heights\n\n";
  }
  for (const end of result.geometry ?? []) yield* endLines(end, line.kFactor);
  for (const one of result.clearance) yield `${clearanceText(one)}\n`;
  yield* leastHeights(result);
  const profile = result.profile;
  if (profile) {
    yield profile.kind === "survey"
      ? `${profile.points} points of a survey, usually ${metres(profile.stepM)} apart\n`
      : `${profile.points} points, one every ${metres(profile.stepM)}, from terrain\n`;
    for (const { fromM, toM, reason } of profile.gaps)
      yield `no heights from ${kilometres(fromM)} to ${kilometres(toM)} (${reason})\n`;
    for (const { fromM, toM } of profile.bridges ?? [])
      yield `no heights from ${kilometres(fromM)} to ${kilometres(toM)}, bridged by a straight line\n`;
  }
}

function* endLines(end: EndGeometry, k: number): Iterable<string> {
  const site = safe(end.site);
  yield `${site}: antenna ${metres(end.antennaHeightM)} above ground at ${metres(end.groundM)} a.s.l.,\n`;
  yield `${" ".repeat(site.length)}  azimuth ${degrees(end.azimuthDeg)}, elevation ${degrees(end.elevationDeg)} at ${kFactor(k)}\n`;
}

/** Of each end alone, the other left as it is. */
function* leastHeights({ ends, clearance }: HopResult): Iterable<string> {
  const asked = clearance.filter(({ forInformation }) => !forInformation);
  if (asked.length === 0) return;
  const least = ends.map((site, index) => {
    const each = asked.map(({ heightNeededM }) => heightNeededM[index as 0 | 1]);
    if (each.some((heightM) => heightM === undefined)) return `${safe(site)} none below 300 m`;
    return `${safe(site)} ${metres(Math.ceil(Math.max(...each.map(Number)) * 10) / 10)}`;
  });
  yield `Least antenna height, the other end as it is: ${least.join(", ")}\n`;
}

function clearanceText(one: ClearanceResult): string {
  const over = one.obstacle === undefined ? "" : ` over "${safe(one.obstacle)}"`;
  const found = `${clearanceAgainst(one)} (${metres(one.clearanceM)})${over} at ${kilometres(one.distanceM)}`;
  const asked = one.forInformation
    ? "for information"
    : `${fresnelAsked(one.requiredFraction)} asked: ${one.verdict === "open" ? "open, some ground is not known" : one.verdict === "met" ? "met" : one.fraction < 0 ? "not met, the ray is blocked" : "not met"}`;
  return `Clearance at ${kFactor(one.kFactor)}: ${found}; ${asked}`;
}

function coloured(row: string, paint: Paint): string {
  return row
    .replace(/[▁-█]+/g, (land) => paint("green", land))
    .replace(/x+/g, (hit) => paint(["red", "bold"], hit));
}
