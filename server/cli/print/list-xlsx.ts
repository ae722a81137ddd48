import type { ListFormat } from "./format.js";

export const listXlsx: ListFormat = {
  name: "xlsx",
  what: "a workbook, a sheet a list",
  bytes: true,
  print: async ({ lists }) => (await import("../../lists/write/xlsx.js")).xlsxBytes(lists),
};
