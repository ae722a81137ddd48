/** The page of one comparison with much in it, section by section, in its text and with the marks of its words. */
import { afterAll, expect, test } from "vitest";
import { changePages } from "../../server/report/diff-pages.js";
import type { Block, Inline, Page, Section } from "../../shared/report/document/document.js";
import { files, hop, terrain } from "./network.js";
import { TestRepository } from "./repository.js";

const SCHOOL = `demand SCHOOL "School" {
  from KELD to TARN
  committed 200 Mbit/s
  availability 99.99 %
  latency 5 ms
}
`;
const HALL = `demand HALL {
  from FELL to handover
  committed 20 Mbit/s
}
`;
const MILL = `demand MILL {
  from PEAK to FELL
}
`;
/** By FELL before, straight then. */
const GATE = `demand GATE {
  from PEAK to TARN
  committed 2 Mbit/s
}
`;
const WELL = `demand WELL {
  from KELD to MOSS
}
`;

const repository = TestRepository.create();
afterAll(() => repository.remove());

function committed(): string {
  repository.write({
    ...files(),
    "demands.hop": `${SCHOOL}\n${HALL}\n${GATE}\n${WELL}`,
    "hops/west.hop": hop("PEAK-MOSS", "PEAK", "MOSS", 12),
    "hops/far.hop": hop("PEAK-FELL", "PEAK", "FELL", 14, { more: "mode 55 MHz QPSK" }),
    "hops/gone.hop": hop("KELD-PEAK", "KELD", "PEAK", 16),
    "hops/mill.hop": hop("FELL-MOSS", "FELL", "MOSS", 2),
  });
  repository.edit("sites.hop", "at 47.55 -30.4", "at 47.55 -30.4\n  handover");
  return repository.commit("base");
}

async function pageSince(commit: string, drawings = true): Promise<Page> {
  const compared = await repository.compare(commit, undefined);
  const [page, ...others] = await changePages(compared, { drawings });
  expect(others).toEqual([]);
  return page!;
}

/** A line a row and an item; what is marked in braces after its mark. */
function told({ title, blocks }: Section): string {
  return [title, ...blocks.flatMap(linesOf)].join("\n");
}

function linesOf(block: Block): string[] {
  switch (block.type) {
    case "table":
      return [
        block.columns.map(({ title }) => title).join(" | "),
        ...block.rows.map(({ cells }) => cells.map(words).join(" | ")),
      ];
    case "list":
      return ["list:", ...block.items.map((item) => `- ${words(item)}`)];
    case "paragraph":
      return [words(block.text)];
    default:
      return [block.type];
  }
}

function words(text: Inline): string {
  if (typeof text === "string") return text;
  if (!("text" in text)) return text.map((span) => words(span)).join("");
  return text.mark === undefined ? text.text : `${text.mark}{${text.text}}`;
}

/** What stands on the page beside the name of the side, which is a commit. */
function printed({ subtitle = "", keyFigures, sections }: Page): string {
  const figures = keyFigures.map(({ label, value, note, tone }) =>
    [`${label}: ${value}`, tone, note].filter((part) => part !== undefined).join(", "),
  );
  const titles = sections.map(({ title }) => `- ${title}`);
  return [subtitle.replace(/^From .* to/, "From a commit to"), ...figures, ...titles].join("\n");
}

/** Each by its title, so that what changed on a page is seen at a glance. */
function expectPage(page: Page): void {
  expect(printed(page)).toMatchSnapshot("head");
  for (const section of page.sections)
    expect(told(section)).toMatchSnapshot(section.title.replace(/: margin.*$/, ""));
}

/** Edits of nearly every kind; a ridge rises under KELD-MOSS, which nobody edits. */
function edit(): void {
  repository.write({
    ...terrain(45),
    "demands.hop": `${SCHOOL.replace("200", "250").replace("latency 5 ms", "latency 0.05 ms")}\n${HALL}\n${GATE}\n${MILL}`,
    "hops/gone.hop": "",
    "hops/more.hop": hop("PEAK-TARN", "PEAK", "TARN", 10, { heightM: 9 }),
    "hops/far.hop": repository.read("hops/far.hop").replace("hop PEAK-FELL", "hop FAR"),
  });
  repository.edit("hops/south.hop", "antenna DISH60-18 at 40 m", "antenna DISH120-18 at 42 m");
  repository.edit(
    "hops/north.hop",
    "hop KELD-TARN {",
    'hop KELD-TARN {\n  accept default-inputs because "known"',
  );
  repository.edit("network.hop", "  climate {", "  severity antennas-overlap info\n  climate {");
  repository.edit("sites.hop", "at 47.45 -30.42", "at 47.451 -30.42");
}

test("the page tells in its sections what was decided, what follows, and because of what", async () => {
  const before = committed();
  edit();
  expectPage(await pageSince(before));
});

test("in words alone the counts stand in one sentence", async () => {
  expect(printed(await pageSince("HEAD", false))).toMatchSnapshot();
});

test("what differs for a time is told under it, and a hop that only has another name as just that", async () => {
  repository.write({
    ...files(),
    "demands.hop": "",
    "hops/north.hop": hop("KELD-MOSS", "KELD", "MOSS", 6),
    "hops/south.hop": hop("FELL-TARN", "FELL", "TARN", 8).replaceAll("DISH60-18", "DISH120-18"),
    "hops/far.hop": hop("FELL-PEAK", "FELL", "PEAK", 14),
    ...Object.fromEntries(["gone", "mill", "more", "west"].map((name) => [`hops/${name}.hop`, ""])),
  });
  const before = repository.commit("few");
  repository.edit("hops/far.hop", "hop FELL-PEAK", "hop FAR");
  repository.edit("hops/south.hop", "  channel", "  state planned 2027-03-01\n  channel");
  repository.edit("hops/north.hop", "  channel", "  state removed 2028-01-01\n  channel");
  repository.edit("catalogue.hop", "gain 44 dBi", "gain 43 dBi");
  // What comes back goes by the name that it has now.
  for (const file of ["catalogue", "hops/north", "hops/far"])
    repository.edit(`${file}.hop`, "DISH60-18", "DISH60-A");
  expectPage(await pageSince(before));
});

test("what is only decided is a table alone; of licences each is named once", async () => {
  const stated = (latency: string, height: string) => ({
    "demands.hop": `demand WELL {\n  from FELL to PEAK\n  committed 2 Mbit/s\n  latency ${latency}\n}\n`,
    "licences.hop": ["A", "B"]
      .map(
        (name) =>
          `licence "${name}" of FELL-PEAK from FELL {\n  frequency 19.48 GHz\n  height ${height}\n}\n`,
      )
      .join("\n"),
  });
  repository.git("checkout", "-q", "--", ".");
  repository.write(stated("5 ms", "40 m"));
  const before = repository.commit("stated");
  repository.write(stated("6 ms", "41 m"));
  expectPage(await pageSince(before));
});
