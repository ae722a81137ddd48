import { shownFrom } from "../../findings/paths.js";
import { shownTime } from "../../findings/summary.js";
import { VERSION } from "../../version.js";
import type { DemandsOutput, DesignDemandsOutput } from "./demands-output.js";
import type { DemandsFormat, DemandsOfFolder, DesignDemands } from "./format.js";
import { jsonText } from "./json-text.js";

export const demandsJson: DemandsFormat = {
  name: "json",
  what: "the same figures for programs, each hop of every route among them",
  print: printJson,
};

function printJson({ designs, only }: DemandsOfFolder): Iterable<string> {
  const output: DemandsOutput = {
    schema: "hopwright-demands/1",
    version: VERSION,
    designs: designs.map((one) => designOutput(one, only)),
  };
  return [`${jsonText(output, 1)}\n`];
}

function designOutput({ design, result, findings }: DesignDemands, only?: string): DesignDemandsOutput {
  const all = [...(result?.demands.values() ?? [])];
  return {
    folder: shownFrom(process.cwd(), design.root),
    title: design.title,
    shows: shownTime(design),
    demands: all
      .filter(({ demand: { name } }) => only === undefined || name === only)
      .map(({ demand: asked, ...one }) => ({ name: asked.name, asked, ...one })),
    hops: [...(result?.hops.values() ?? [])],
    failures: result?.failures ?? [],
    rings: result?.rings ?? [],
    meshes: result?.meshes ?? [],
    findings: findings.map(({ rule, severity, message, accepted }) => ({
      rule,
      severity,
      message,
      ...(accepted && { accepted: true as const }),
    })),
  };
}
