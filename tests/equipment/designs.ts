/** Designs written as a user writes them, over the invented equipment of the rules' examples. */
import { DesignModel } from "../../language/model/design-model.js";
import { readSource } from "../../language/model/source-file.js";
import type { Design } from "../../shared/design/design.js";
import { EXAMPLE_PREAMBLE } from "../../shared/rules/example-preamble.js";

/** Reads text after the preamble; it must be free of faults. */
export function designOf(text: string, preamble: string = EXAMPLE_PREAMBLE): Design {
  const model = new DesignModel("/example");
  model.setFile(readSource("/example/example.hop", `${preamble}\n${text}`));
  const faults = model.problemsOf("/example/example.hop").filter(({ severity }) => severity === "error");
  if (faults.length > 0) throw new Error(faults.map(({ message }) => message).join("\n"));
  return model.design();
}
