import { exampleHop } from "../example-preamble.js";

/** The example hop with a licence for what KELD sends. */
export function licensedHop(
  granted: string,
  more: { readonly hop?: string; readonly network?: string; readonly until?: string } = {},
): string {
  return `${more.network === undefined ? "" : `${more.network}\n\n`}${exampleHop(more.hop === undefined ? {} : { more: more.hop })}

licence "F-2031/14" of KELD-TARN from KELD {
  ${granted}
  until ${more.until ?? "2999-12-31"}
}`;
}
