/** What was granted beside what the design sends, a row a figure. */
import type { Hop } from "../../../design/design.js";
import type { Licence } from "../../../design/licence.js";
import { bandwidth, frequency, metres } from "../../../format/numbers.js";
import { inverse } from "../../../geodesy/geodesic.js";
import { builtDepartures } from "../../../licence/built.js";
import type { Departure } from "../../../licence/departures.js";
import type { Held } from "../../../licence/held.js";
import type { Transmission } from "../../../licence/transmissions.js";
import type { Inline, Table } from "../../document/document.js";
import type { SheetWords } from "../words/sheet-words.js";
import { eirpDigits } from "./eirp-terms.js";
import { dms, inBoth, labelOf, notStated, told } from "./licence-rows.js";

type Figure = Departure["figure"];

/** In the order of a licence in the language. */
const FIGURES: readonly Figure[] = [
  "frequency",
  "bandwidth",
  "emission",
  "polarization",
  "EIRP",
  "antenna",
  "height",
  "position",
];

/** So many transmissions stand beside each other. */
const BESIDE = 2;

/** None where no licence is stated. */
export function grantedTables(hop: Hop, all: readonly Held[], words: SheetWords): readonly Table[] {
  const licensed = all.filter(({ licence }) => licence !== undefined);
  const several = new Set(all.map(({ sent }) => sent.carrier)).size > 1;
  const groups = Array.from({ length: Math.ceil(licensed.length / BESIDE) }, (_, at) =>
    licensed.slice(at * BESIDE, (at + 1) * BESIDE),
  );
  return groups.map((those) => grantedTable(hop, those, several, words));
}

function grantedTable(hop: Hop, those: readonly Held[], several: boolean, words: SheetWords): Table {
  const { licences: said } = words.desk;
  return {
    type: "table",
    caption: said.compared,
    columns: [
      { title: words.common.what },
      ...those.flatMap(({ sent, licence }) => {
        const from = several ? `${sent.site}, ${words.carrier(sent.carrier)}` : sent.site;
        return [
          { title: said.designedAt(from) },
          { title: said.grantedBy(licence!.number) },
          { title: said.compares },
        ];
      }),
    ],
    rows: FIGURES.map((figure) => ({
      cells: [
        labelOf(said.figures[figure]),
        ...those.flatMap((held): Inline[] => [
          designedText(figure, held.sent, words) ?? notStated(words),
          grantedText(figure, held.licence!, words) ?? { text: words.common.notStated, mark: "quiet" },
          standsText(figure, hop, held, words),
        ]),
      ],
    })),
  };
}

/** By the rule that holds the design against its licence; letters that the design leaves open are held against nothing. */
function standsText(figure: Figure, hop: Hop, held: Held, words: SheetWords): Inline {
  const { sent, licence, departures } = held;
  const { licences: said } = words.desk;
  if (departures.some((one) => one.figure === figure)) {
    const differs = { text: said.differs, mark: "error" } as const;
    const { position } = licence!;
    if (figure !== "position" || position === undefined || sent.position === undefined) return differs;
    const { distanceM } = inverse({ from: position, to: sent.position });
    return [differs, ` ${said.metresApart(words.figure(metres(distanceM)))}`];
  }
  const built = builtDepartures(hop, held).find((one) => one.figure === figure);
  if (built !== undefined)
    return [{ text: said.differs, mark: "error" }, ` ${said.asBuilt(words.figure(built.is))}`];
  const designed = designedText(figure, sent, words);
  const granted = grantedText(figure, licence!, words);
  if (designed === undefined || granted === undefined) return "–";
  if (figure === "emission" && hop.emissionClass === undefined && designed !== granted)
    return { text: said.notCompared, mark: "unjudged" };
  return { text: said.agrees, mark: "good" };
}

function designedText(figure: Figure, sent: Transmission, words: SheetWords): string | undefined {
  switch (figure) {
    case "bandwidth":
      return told(sent.bandwidthHz, (hz) => words.figure(bandwidth(hz)));
    case "emission":
      return sent.emission;
    case "EIRP":
      return told(sent.greatestEirpDbm, (power) => inBoth(power, words, eirpDigits(sent) - 1));
    default:
      return ofBoth(figure, sent, words);
  }
}

/** A bandwidth may be that of the designator; an EIRP is the most that may be. */
function grantedText(figure: Figure, licence: Licence, words: SheetWords): string | undefined {
  switch (figure) {
    case "bandwidth":
      return told(licence.bandwidthHz, (hz) => words.figure(bandwidth(hz))) ?? licence.emission;
    case "emission":
      return licence.emission;
    case "EIRP":
      return told(licence.eirpDbm, (power) => `≤ ${inBoth(power, words)}`);
    default:
      return ofBoth(figure, licence, words);
  }
}

type Both = Pick<Licence, "frequencyHz" | "polarization" | "antenna" | "antennaHeightM" | "position">;

function ofBoth(
  figure: Exclude<Figure, "bandwidth" | "emission" | "EIRP">,
  { frequencyHz, polarization, antenna, antennaHeightM, position }: Partial<Both>,
  words: SheetWords,
): string | undefined {
  switch (figure) {
    case "frequency":
      return told(frequencyHz, (hz) => words.figure(frequency(hz)));
    case "polarization":
      return polarization && words.polarizations[polarization];
    case "antenna":
      return antenna;
    case "height":
      return told(antennaHeightM, (heightM) => words.figure(metres(heightM)));
    case "position":
      return told(position, (place) => dms(place, words));
  }
}
