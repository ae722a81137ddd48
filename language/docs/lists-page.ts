/** What columns of lists can be, from the table that lists are read by. */
import { FIELDS } from "../../shared/lists/fields.js";
import { TOLD_ONLY } from "../../shared/lists/subjects/list.js";
import { table } from "./markdown.js";

const OF: Readonly<Record<string, string>> = { site: "site", hop: "hop", end: "end of a hop" };

export function listsPage(): string {
  const rows = FIELDS.map(({ called, of, figure, checked, spellings }) => [
    called,
    of.map((one) => OF[one]).join(", "),
    figure ? `${figure.usual}${checked ? ", compared only" : ""}` : "",
    spellings.join(", "),
  ]);
  return `# Columns of lists

Made from the table by which \`hopwright import\` reads columns; do not edit by hand.

A head is read without case, accents, blanks and signs: \`Antenna height A [m]\`, \`antenna_height_a_m\` and
\`Antennenhöhe A (m)\` are one. A unit stands in brackets, behind a comma or at the end; a figure without one has the usual
unit of its column, a frequency the one that fits its size, and the import shows which. Which end of a hop a head speaks of
is said by a, b, 1, 2, near, far, from, to, local, remote, start, end and their like; by tx and rx where a row is one
direction of transmission. Heads over several columns are read with those below them, and a line of units below the heads
counts. What none of this finds is named in a file for \`--map\`, in any of these spellings:

\`\`\`json
{ "rows": "hops", "columns": { "Standort": "site a", "Gegenstelle": "site b", "Remark": "" } }
\`\`\`

\`rows\` may be sites, hops, transmissions or ends, and is left out where the columns say it. A column with an empty text is
passed over.

${table(["field", "of", "unit", "words that head it"], rows)}

Coordinates are decimal degrees, degrees and minutes, or degrees, minutes and seconds in the usual spellings, in two
columns, in one, or with the parts in columns of their own; eastings and northings need the code of their system, by a
column, in the head, or by \`--epsg\`, and become degrees. Another datum than WGS 84, or one that differs from it by no more
than some metres, costs the row unless \`--datum-as-wgs84\` says otherwise.

A state is built, planned or removed, with a day as may be: \`planned 2027-03-01\`. A day in another spelling is read where
it has one reading (\`1.3.2027\`, \`1 March 2027\`); one that has two (\`01/03/2027\`) or is none costs the row. A list tells
each site and hop as it stands last, also those that are taken down before all that is planned stands, and comes back so.
One of a single day (\`list --on\`) says in \`shown_on\` which, and is not read back.

The heads of the lists of sites, hops and ends that \`hopwright list\` prints are among these. Lists of
${[...TOLD_ONLY.keys()].join(", ")} follow from the design and are passed over.
`;
}
