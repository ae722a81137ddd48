/** Results and explanations as they are printed for programs: each code with its values, and its words beside them. */
import type { InputUsed } from "../../../shared/evaluate/account/input.js";
import type { FactName, Lack } from "../../../shared/evaluate/account/lack.js";
import type { DirectionResult, LevelRow } from "../../../shared/evaluate/account/level-result.js";
import { METHODS, type MethodId, type MethodRow } from "../../../shared/evaluate/account/methods.js";
import type { Note } from "../../../shared/evaluate/account/note.js";
import type { EquipmentOutage, ObjectiveResult } from "../../../shared/evaluate/account/outage-result.js";
import type { HopResult } from "../../../shared/evaluate/account/result.js";
import type { Explanation } from "../../../shared/report/explanation.js";
import { elementMessage } from "../../../shared/words/elements.js";
import { inputShown } from "../../../shared/words/inputs.js";
import { factWords, lackClause } from "../../../shared/words/lacks.js";
import { shown } from "../../../shared/words/message.js";
import { standingMessage } from "../../../shared/words/methods.js";
import { noteMessage } from "../../../shared/words/notes.js";
import { countedMessage, objectiveMessage, protectionMessage } from "../../../shared/words/objectives.js";

/** `said` is for people and may change; the code and its values do not without a new number of the schema. */
export type NoteOutput = Note & { readonly said: string };

export interface LackOutput extends Omit<Lack, "fact"> {
  /** As a clause. */
  readonly said: string;
  readonly fact?: FactName & { readonly name: string };
}

/** `standing` is a code; `status` tells it to people. */
export interface MethodOutput extends Pick<MethodRow, "source" | "what" | "standing"> {
  readonly id: MethodId;
  readonly status: string;
}

/** The code with its value in SI, and both as they are written. */
export type InputOutput = InputUsed & {
  readonly name: string;
  readonly value: string;
  readonly note?: string;
};

export interface ObjectiveOutput extends ObjectiveResult {
  readonly what: string;
  readonly source: string;
  /** What was compared. */
  readonly of: string;
}

/** What is passed as a code with its values, and its words. */
export interface LevelOutput extends LevelRow {
  readonly element: string;
  readonly detail?: string;
}

export interface DirectionOutput extends Omit<DirectionResult, "levels"> {
  readonly levels: readonly LevelOutput[];
}

type Availability = NonNullable<HopResult["availability"]>;

export interface EquipmentOutput extends Omit<EquipmentOutage, "protection"> {
  readonly protection: EquipmentOutage["protection"] & { readonly said: string };
}

export interface AvailabilityOutput extends Omit<Availability, "equipment"> {
  /** Failures of equipment, both ends; undefined: MTBF or repair time is not stated. */
  readonly equipment?: EquipmentOutput;
}

export interface ResultOutput
  extends Omit<
    HopResult,
    "availability" | "directions" | "inputs" | "methods" | "objectives" | "notes" | "missing"
  > {
  readonly directions: readonly DirectionOutput[];
  /** Propagation only, both directions together: rain of the worse direction, multipath of both added. */
  readonly availability?: AvailabilityOutput;
  readonly inputs: readonly InputOutput[];
  readonly methods: readonly MethodOutput[];
  /** Further objectives, each held against what was computed. */
  readonly objectives?: readonly ObjectiveOutput[];
  /** Remarks on how the figures were made, and of the methods about their validity. */
  readonly notes: readonly NoteOutput[];
  /** What could not be computed, and why. */
  readonly missing: readonly LackOutput[];
}

export interface ExplanationOutput extends Omit<Explanation, "inputs" | "methods" | "notes"> {
  readonly inputs: readonly InputOutput[];
  readonly methods: readonly MethodOutput[];
  readonly notes: readonly NoteOutput[];
}

export function resultOutput(result: HopResult): ResultOutput {
  return {
    ...result,
    availability: result.availability && availabilityOutput(result.availability),
    directions: result.directions.map((one) => ({ ...one, levels: one.levels.map(levelOutput) })),
    inputs: result.inputs.map(inputOutput),
    methods: result.methods.map(methodOutput),
    objectives: result.objectives?.map(objectiveOutput),
    notes: result.notes.map(noteOutput),
    missing: result.missing.map(lackOutput),
  };
}

export function explanationOutput(explanation: Explanation): ExplanationOutput {
  return {
    ...explanation,
    inputs: explanation.inputs.map(inputOutput),
    methods: explanation.methods.map(methodOutput),
    notes: explanation.notes.map(noteOutput),
  };
}

function levelOutput(row: LevelRow): LevelOutput {
  const { name, detail } = elementMessage(row.passes);
  return { ...row, element: shown(name), detail: detail && shown(detail) };
}

function inputOutput(input: InputUsed): InputOutput {
  const { name, value, note } = inputShown(input);
  return { ...input, name: shown(name), value: shown(value), note: note && shown(note) };
}

function methodOutput(id: MethodId): MethodOutput {
  const { source, what, standing } = METHODS[id];
  return { id, source, what, standing, status: shown(standingMessage(standing, source)) };
}

function availabilityOutput(found: Availability): AvailabilityOutput {
  const { equipment, ...rest } = found;
  if (equipment === undefined) return rest;
  const { protection } = equipment;
  const said = shown(protectionMessage(equipment));
  return { ...rest, equipment: { ...equipment, protection: { ...protection, said } } };
}

function objectiveOutput(objective: ObjectiveResult): ObjectiveOutput {
  return {
    ...objective,
    what: shown(objectiveMessage(objective)),
    source: METHODS[objective.method].source,
    of: shown(countedMessage(objective)),
  };
}

function noteOutput(note: Note): NoteOutput {
  return { ...note, said: shown(noteMessage(note)) };
}

function lackOutput(lack: Lack): LackOutput {
  const { fact, ...rest } = lack;
  return {
    ...rest,
    said: shown(lackClause(lack)),
    fact: fact && { ...fact, name: shown(factWords(fact)) },
  };
}
