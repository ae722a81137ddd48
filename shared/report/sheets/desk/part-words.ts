/** How the sheet of parts says a part, how many of it, and what is delivered. */
import type { Delivery } from "../../../design/equipment.js";
import type { Part } from "../../../equipment/parts-list.js";
import { trimmed } from "../../../format/numbers.js";
import type { Block } from "../../document/document.js";
import type { SheetWords } from "../words/sheet-words.js";

/** `DISH60-18, 0.6 m parabolic` in our own words for what is ours, as stated for what is the design's. */
export function typeWords({ name, title, detail, says, toChoose }: Part, words: SheetWords): string {
  const { parts: said, halves } = words.desk;
  if (toChoose) return said.toChoose;
  switch (says?.is) {
    case undefined:
      return listed([name, title, detail]);
    case "fitting":
      return listed([said.fits(says.entry, says.connector), title]);
    case "piece":
      return listed([name, title, words.figure(`${trimmed(says.lengthM, 2)} m`)]);
    case "setting": {
      const { half, subBand, open } = says;
      const band = subBand === undefined ? (open ? said.subBandOpen : undefined) : said.subBand(subBand);
      return listed([name, title, half && halves[half], band]);
    }
  }
}

/** Pieces; of cable with the length of all of them. */
export function amount({ quantity, lengthM, estimated }: Part, { figure, desk }: SheetWords): string {
  if (lengthM === undefined) return String(quantity);
  const length = figure(`${estimated ? "~" : ""}${trimmed(lengthM, 1)} m`);
  return quantity === 1 ? `1, ${length}` : desk.parts.inAll(quantity, length);
}

const DELIVERIES: readonly Delivery["state"][] = ["delivered", "ordered"];

/** `2 delivered, 4 ordered`; a dash where nothing is stated of any. */
export function deliveryCounts(parts: readonly Part[], { desk }: SheetWords): string {
  const counts = DELIVERIES.flatMap((state) => {
    const count = parts.reduce((sum, part) => sum + (part.delivery?.state === state ? part.quantity : 0), 0);
    return count > 0 ? [`${count} ${desk.parts.deliveries[state]}`] : [];
  });
  return counts.length === 0 ? "–" : counts.join(", ");
}

export function deliveryText({ state, date, remark }: Delivery, { desk, day }: SheetWords): string {
  const when = date === undefined ? undefined : day(date);
  return listed([
    [desk.parts.deliveries[state], when].filter((word) => word !== undefined).join(" "),
    remark === "" ? undefined : remark,
  ]);
}

function listed(parts: readonly (string | undefined)[]): string {
  return parts.filter((part) => part !== undefined).join(", ");
}

export function paragraph(text: string): Block {
  return { type: "paragraph", text };
}
