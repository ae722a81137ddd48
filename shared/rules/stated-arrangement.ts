import { type Address, address } from "../design/address.js";
import type { Hop, HopEnd } from "../design/design.js";
import { arrangementAt } from "../radio/arrangement-pairs.js";

/** Where the arrangement that an end has is stated: at the end itself, else at the hop. */
export function statedArrangement(
  hop: Pick<Hop, "name" | "arrangement">,
  end: HopEnd,
): { readonly at: Address; readonly message: string } {
  const name = arrangementAt(hop, end);
  const isOwn = end.arrangement?.name === name;
  const at = isOwn
    ? address("hop", hop.name, end.site.name, "arrangement")
    : address("hop", hop.name, "arrangement");
  return { at, message: name };
}
