/** Options that several commands take. */
import { InvalidArgumentError, Option } from "commander";
import { isDay } from "../../shared/design/day.js";
import { today } from "../today.js";

export function severityOption(): Option {
  return new Option("--severity <severity>", "least severity that makes the exit status 1")
    .choices(["error", "warning", "info"])
    .default("error");
}

export function onOption(): Option {
  return new Option(
    "--on <date>",
    "the design as it stands on this day; left out: each day from today on that changes something (pages, lists and explanations: once all that is planned stands)",
  ).argParser(dayOf);
}

function dayOf(text: string): string {
  if (!isDay(text)) throw new InvalidArgumentError("a day is written year-month-day, such as 2027-03-01.");
  return text;
}

/** For tests and for looking ahead: what stands by now, and which acceptances have ended. */
export function todayOption(): Option {
  return new Option("--today <date>").default(today()).hideHelp().argParser(dayOf);
}

export function paperOption(): Option {
  return new Option("--paper <paper>", "A4 or Letter; left out: A4 for PDF, else as the reader prints");
}

export function count(text: string): number {
  const value = Number(text);
  if (!Number.isInteger(value) || value < 1)
    throw new InvalidArgumentError("it must be a whole number above 0");
  return value;
}
