import type { ProfileLine } from "../../../shared/report/draw/profile-points.js";
import { drawnKFactor, type drawnLine } from "../../../shared/report/draw/profile-points.js";
import { lackClause } from "../../../shared/words/lacks.js";
import { shown } from "../../../shared/words/message.js";
import { CommandError } from "../../command-error.js";
import type { ProfileOfHop } from "./format.js";

/** @throws CommandError where the path has no profile */
export function lineOf({ hop, result, profile }: ProfileOfHop, of: typeof drawnLine): ProfileLine {
  const line = profile && of(hop, result, profile, drawnKFactor(hop));
  if (line) return line;
  const lack = result.missing.find((one) => one.of.includes("profile"));
  const why = lack ? shown(lackClause(lack)) : "the positions of both sites are needed";
  throw new CommandError(`${hop.name}: there is no profile: ${why}`);
}
