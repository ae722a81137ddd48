/** What every figure of a hop rests on: inputs, terrain or survey, methods and their standing. */

import type { Note } from "../../evaluate/account/note.js";
import { isAbout } from "../../evaluate/account/note-facts.js";
import type { HopResult } from "../../evaluate/account/result.js";
import { metres } from "../../format/numbers.js";
import type { InterferenceAt } from "../../interference/receiver-result.js";
import { inputShown } from "../../words/inputs.js";
import { lackSentence } from "../../words/lacks.js";
import { shown } from "../../words/message.js";
import { methodShown } from "../../words/methods.js";
import { noteMessage } from "../../words/notes.js";
import { type Block, type Section, sentence } from "../document/document.js";
import { interferenceMethods } from "../interference.js";

/** What was not computed, and what every figure rests on: inputs, ground, methods. */
export function originSection(result: HopResult, interference: readonly InterferenceAt[] = []): Section[] {
  const sections: Section[] = [];
  if (result.missing.length > 0) {
    sections.push({
      id: "missing",
      title: "Not computed",
      blocks: [{ type: "list", items: result.missing.map((lack) => sentence(shown(lackSentence(lack)))) }],
    });
  }
  if (result.inputs.length > 0) {
    sections.push({
      id: "inputs",
      title: "Inputs and their origin",
      blocks: [
        {
          type: "table",
          columns: [{ title: "Input" }, { title: "Value", align: "right" }, { title: "Origin" }],
          rows: result.inputs.map((input) => {
            const { name, value, origin, note } = inputShown(input);
            return {
              cells: [
                shown(name),
                shown(value),
                note === undefined
                  ? shown(origin)
                  : [shown(origin), { text: `, ${shown(note)}`, mark: "quiet" } as const],
              ],
            };
          }),
        },
        ...terrainSources(result),
      ],
    });
  }
  const methods = [...result.methods, ...interferenceMethods(interference)];
  if (methods.length > 0) {
    const hasLevels = result.directions.length > 0;
    // Notes about a level stand with it.
    const notes = result.notes.filter((one) => !hasLevels || !isAbout(one, "level"));
    sections.push({
      id: "methods",
      title: "Methods",
      blocks: [
        {
          type: "table",
          columns: [{ title: "Method" }, { title: "Source" }, { title: "Status" }],
          rows: methods.map((id) => {
            const { what, source, standing } = methodShown(id);
            return { cells: [shown(what), shown(source), shown(standing)] };
          }),
        },
        ...(notes.length > 0 ? [noteList(notes)] : []),
      ],
    });
  }
  return sections;
}

export function noteList(notes: readonly Note[]): Block {
  return { type: "list", items: notes.map((one) => sentence(shown(noteMessage(one)))) };
}

function surveyWords(survey: HopResult["survey"]): string {
  if (survey === undefined) return "Surveyed profile";
  const made = survey.source === "field" ? "in the field" : "from a map";
  const stated = survey.sourceStated ? "" : ", which is not stated";
  const { stretchedM } = survey.fit ?? {};
  const way = stretchedM === undefined || stretchedM > 0 ? "stretched" : "shortened";
  const fit =
    stretchedM === undefined ? "" : `, ${way} by ${metres(Math.abs(stretchedM))} at its far end to the path`;
  return `Surveyed profile (${made}${stated}${fit})`;
}

function terrainSources({ profile, survey }: HopResult) {
  if (profile === undefined) return [];
  const files = profile.sources
    .map(({ file, sharePercent }) => `${file} (${sharePercent.toFixed(0)} %)`)
    .join(", ");
  const step = `${profile.stepM.toFixed(0)} m`;
  const text =
    profile.kind === "survey"
      ? `${surveyWords(survey)}: ${files || "no file"}; ${profile.points} points, usually ${step} apart.`
      : `Terrain: ${files || "no file"}; ${profile.points} points, one every ${step}.`;
  return [{ type: "paragraph", text } as const];
}
