import type { ClearanceResult } from "../evaluate/account/path-result.js";
import { apart, fresnel } from "../format/numbers.js";

/** The clearance found, as it stands beside what is asked: it never reads the same when it is less, however little. */
export function clearanceAgainst({ fraction, requiredFraction, forInformation }: ClearanceResult): string {
  return forInformation ? fresnel(fraction) : apart(fresnel, fraction, requiredFraction)[0];
}
