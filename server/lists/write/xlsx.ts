/**
 * Workbooks (ISO/IEC 29500-1, SpreadsheetML): a sheet a list, its head frozen, texts as texts, figures as figures, and the
 * same bytes each time. Texts stand in their cells, so that none is ever taken for a formula or for another.
 */
import { strToU8, zipSync } from "fflate";
import type { List, Value } from "../../../shared/lists/subjects/list.js";
import { escaped } from "../../../shared/report/document/markup.js";

/** The earliest that an archive can state: no clock. */
const NO_TIME = new Date(1980, 0, 1);
/** What a cell of a workbook holds at most. */
const LONGEST_CELL = 32_767;
const HEAD = '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n';
const MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
const OFFICE = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
const PACKAGE = "http://schemas.openxmlformats.org/package/2006";
const TYPES = "application/vnd.openxmlformats-officedocument.spreadsheetml";

export function xlsxBytes(lists: readonly List[]): Uint8Array {
  const parts: Record<string, string> = {
    "[Content_Types].xml": `<Types xmlns="${PACKAGE}/content-types"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/><Default Extension="xml" ContentType="application/xml"/><Override PartName="/xl/workbook.xml" ContentType="${TYPES}.sheet.main+xml"/><Override PartName="/xl/styles.xml" ContentType="${TYPES}.styles+xml"/>${each(lists, (_, n) => `<Override PartName="/xl/worksheets/sheet${n}.xml" ContentType="${TYPES}.worksheet+xml"/>`)}</Types>`,
    "_rels/.rels": `<Relationships xmlns="${PACKAGE}/relationships"><Relationship Id="rId1" Type="${OFFICE}/officeDocument" Target="xl/workbook.xml"/></Relationships>`,
    "xl/workbook.xml": `<workbook xmlns="${MAIN}" xmlns:r="${OFFICE}"><sheets>${each(lists, ({ subject }, n) => `<sheet name="${subject}" sheetId="${n}" r:id="rId${n}"/>`)}</sheets></workbook>`,
    "xl/_rels/workbook.xml.rels": `<Relationships xmlns="${PACKAGE}/relationships">${each(lists, (_, n) => `<Relationship Id="rId${n}" Type="${OFFICE}/worksheet" Target="worksheets/sheet${n}.xml"/>`)}<Relationship Id="rId0" Type="${OFFICE}/styles" Target="styles.xml"/></Relationships>`,
    "xl/styles.xml": STYLES,
  };
  for (const [i, list] of lists.entries()) parts[`xl/worksheets/sheet${i + 1}.xml`] = sheetXml(list);
  const bytes = Object.fromEntries(Object.entries(parts).map(([name, xml]) => [name, strToU8(HEAD + xml)]));
  return zipSync(bytes, { mtime: NO_TIME, level: 6 });
}

function each(lists: readonly List[], one: (list: List, number: number) => string): string {
  return lists.map((list, i) => one(list, i + 1)).join("");
}

/** The plain style, and a bold one for the head. */
const STYLES = `<styleSheet xmlns="${MAIN}"><fonts count="2"><font><sz val="11"/><name val="Calibri"/></font><font><b/><sz val="11"/><name val="Calibri"/></font></fonts><fills count="2"><fill><patternFill patternType="none"/></fill><fill><patternFill patternType="gray125"/></fill></fills><borders count="1"><border><left/><right/><top/><bottom/><diagonal/></border></borders><cellStyleXfs count="1"><xf numFmtId="0" fontId="0" fillId="0" borderId="0"/></cellStyleXfs><cellXfs count="2"><xf numFmtId="0" fontId="0" fillId="0" borderId="0" xfId="0"/><xf numFmtId="0" fontId="1" fillId="0" borderId="0" xfId="0" applyFont="1"/></cellXfs></styleSheet>`;

function sheetXml({ columns, rows }: List): string {
  const widths = columns.map(({ head }, i) =>
    widthOf([head, ...rows.slice(0, 200).map(({ values }) => values[i])]),
  );
  const columnsXml = widths.map(
    (width, i) => `<col min="${i + 1}" max="${i + 1}" width="${width}" customWidth="1"/>`,
  );
  const head = columns.map(({ head: value }, i) => cellXml(value, i, 1, ' s="1"')).join("");
  const body = rows.map(
    ({ values }, row) =>
      `<row r="${row + 2}">${values.map((value, i) => cellXml(value, i, row + 2)).join("")}</row>`,
  );
  const frozen =
    '<sheetViews><sheetView workbookViewId="0"><pane ySplit="1" topLeftCell="A2" activePane="bottomLeft" state="frozen"/></sheetView></sheetViews>';
  return `<worksheet xmlns="${MAIN}">${frozen}<cols>${columnsXml.join("")}</cols><sheetData><row r="1">${head}</row>${body.join("")}</sheetData></worksheet>`;
}

function cellXml(value: Value, column: number, row: number, style = ""): string {
  if (value === undefined) return "";
  const at = `r="${letters(column)}${row}"${style}`;
  if (typeof value === "number") return `<c ${at}><v>${value}</v></c>`;
  return `<c ${at} t="inlineStr"><is><t xml:space="preserve">${escaped(value.slice(0, LONGEST_CELL))}</t></is></c>`;
}

/** 0 to `A`, 27 to `AB`. */
function letters(column: number): string {
  const last = String.fromCharCode(65 + (column % 26));
  return column < 26 ? last : letters(Math.floor(column / 26) - 1) + last;
}

function widthOf(values: readonly Value[]): number {
  return Math.min(60, 2 + Math.max(...values.map((value) => String(value ?? "").length)));
}
