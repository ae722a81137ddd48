import type { NetworkRule } from "../rule.js";
import { licenceDiffers } from "./licence-differs.js";
import { licenceExpired, licenceExpires } from "./licence-expired.js";
import { licenceIncomplete } from "./licence-incomplete.js";
import { licenceMissing } from "./licence-missing.js";
import { licenceUnused } from "./licence-unused.js";

export const LICENCE_RULES: readonly NetworkRule[] = [
  licenceUnused,
  licenceIncomplete,
  licenceDiffers,
  licenceExpired,
  licenceExpires,
  licenceMissing,
];
