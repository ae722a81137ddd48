import type { ReportFormat } from "./format.js";

export const reportPdf: ReportFormat = {
  name: "pdf",
  what: "pages for a printer and a mailbox, font and drawings inside",
  named: true,
  print: async (page) => {
    const { makePdf } = await import("../../pdf/make.js");
    return [{ path: `${page.name}.pdf`, ...(await makePdf(page)) }];
  },
};
