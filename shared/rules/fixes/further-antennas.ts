/** Antennas beside the first: the one that is missing, the one too many, the one under another's word. */
import type { FactChange, Fix } from "../../design/fact-change.js";
import { antennasStated, FURTHER, joiningOf, standsOf } from "../../equipment/stands.js";
import { trimmed } from "../../format/numbers.js";
import { factsAt } from "../../radio/arrangement-pairs.js";
import { couplersFor } from "./couplers.js";
import { decision, endHere, type Fixes, factHere } from "./mending.js";

/** Room for brackets and movement between two antennas, m. Common practice. */
const ROOM_M = 0.5;

/** The antenna under the word that its arrangement has for it, else one more like the last, with its coupler. */
export const addAntenna: Fixes = (mending) => {
  const here = endHere(mending);
  const facts = here && factsAt(here.hop, here.end);
  if (!here || !facts) return [];
  const before = [...renameAntenna(mending), ...couplerWithMore(mending)];
  const stands = standsOf(here.end, facts);
  const last = stands.findLast(({ antenna }) => antenna !== undefined);
  const place = FURTHER[stands.length - 1];
  const { left } = joiningOf(stands, facts);
  if (last?.antenna === undefined || last.heightM === undefined || place === undefined) return before;
  const { name, diameterM = 0 } = last.antenna;
  const word = facts.spaceDiversity ? "diversity-antenna" : `${place}-antenna`;
  const coupler =
    facts.spaceDiversity || (left <= 1 && facts.coupler !== undefined) ? undefined : last.coupler;
  const mounting = last.mounting === undefined ? "" : ` ${last.mounting}`;
  const spacingM = diameterM + ROOM_M;
  const fixes = [last.heightM - spacingM, last.heightM + spacingM].flatMap((heightM): Fix[] => {
    if (heightM <= diameterM / 2) return [];
    const at = `${trimmed(heightM, 1)} m`;
    const changes: FactChange[] = [{ do: "add", in: here.at, lines: [`${word} ${name} at ${at}`] }];
    if (coupler)
      changes.push({ do: "add", in: here.at, lines: [`${place}-coupler ${coupler.name}${mounting}`] });
    const joined = coupler ? ` with ${coupler.name}` : "";
    return [decision(`Add ${name}${joined} at ${at} at ${here.site} (changes the equipment)`, ...changes)];
  });
  return [...before, ...fixes];
};

/** `diversity-antenna` where the arrangement has a second one without diversity, and the other way round. */
const renameAntenna: Fixes = (mending) => {
  const here = endHere(mending);
  const facts = here && factsAt(here.hop, here.end);
  if (!here || !facts || facts.antennas < 2) return [];
  const [was, is] = facts.spaceDiversity
    ? ["second-antenna", "diversity-antenna"]
    : ["diversity-antenna", "second-antenna"];
  return [
    decision(`Write ${is} in place of ${was} at ${here.site}`, {
      do: "rename",
      at: `${here.at} / ${was}`,
      to: is!,
    }),
  ];
};

/** A coupler that joins all units of its antenna in place of one for two. */
const couplerWithMore: Fixes = (mending) => {
  const here = endHere(mending);
  const facts = here && factsAt(here.hop, here.end);
  const small =
    here &&
    facts &&
    standsOf(here.end, facts).find(
      ({ coupler }) => coupler?.kind !== undefined && coupler.kind !== facts.coupler,
    );
  if (!here || !small) return [];
  return couplersFor(mending, here)
    .filter(({ kind }) => kind === facts.coupler)
    .map(({ name }) =>
      decision(`Take coupler ${name} at ${here.site} (changes the equipment)`, {
        do: "replace",
        at: `${here.at} / ${small.couplerFact}`,
        argument: "coupler",
        by: name,
      }),
    );
};

/** The antenna that the finding is about, and what joins units to it. */
export const removeAntenna: Fixes = (mending) => {
  const here = endHere(mending);
  const fact = factHere(mending);
  const stand = here && antennasStated(here.end).find((one) => one.fact === fact);
  if (!here || !stand) return [];
  const words = [stand.fact, stand.couplerFact].filter((word) => word !== "coupler");
  const title = `Remove the ${stand.fact.replace("-", " ")} at ${here.site} (changes the equipment)`;
  return [
    ...renameAntenna(mending),
    decision(
      title,
      ...words.map((word): FactChange => ({ do: "remove", at: `${here.at} / ${word}`, optional: true })),
    ),
  ];
};
