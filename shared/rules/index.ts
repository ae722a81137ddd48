import { acceptanceExpired } from "./acceptance-expired.js";
import { acceptanceReason } from "./acceptance-reason.js";
import { acceptanceUnknown } from "./acceptance-unknown.js";
import { acceptanceUnused } from "./acceptance-unused.js";
import { antennaAboveStructure } from "./antenna-above-structure.js";
import { antennaBelowGround } from "./antenna-below-ground.js";
import { antennaGainImplausible } from "./antenna-gain-implausible.js";
import { antennaNotNeeded } from "./antenna-not-needed.js";
import { antennaOutOfBand } from "./antenna-out-of-band.js";
import { antennaPortsShort } from "./antenna-ports-short.js";
import { antennaSinglePolarized } from "./antenna-single-polarized.js";
import { antennaWithoutStructure } from "./antenna-without-structure.js";
import { AS_BUILT_HOP_RULES, AS_BUILT_NETWORK_RULES } from "./as-built/index.js";
import { availability } from "./availability.js";
import { bothEndsSameHalf } from "./both-ends-same-half.js";
import { capacity } from "./capacity.js";
import { channelCount } from "./channel-count.js";
import { channelOutsideRadio } from "./channel-outside-radio.js";
import { channelPlanUnconfirmed } from "./channel-plan-unconfirmed.js";
import { clearance } from "./clearance.js";
import { climateMissing } from "./climate-missing.js";
import { couplerImpossible } from "./coupler-impossible.js";
import { couplerMissing } from "./coupler-missing.js";
import { couplerNotNeeded } from "./coupler-not-needed.js";
import { couplerOutOfBand } from "./coupler-out-of-band.js";
import { couplerWrongKind } from "./coupler-wrong-kind.js";
import { couplingLossMissing } from "./coupling-loss-missing.js";
import { couplingLossSite } from "./coupling-loss-site.js";
import { defaultInputs } from "./default-inputs.js";
import { DEMAND_RULES } from "./demands/index.js";
import { diffractionLoss } from "./diffraction-loss.js";
import { diversityClearance } from "./diversity-clearance.js";
import { diversityIncomplete } from "./diversity-incomplete.js";
import { duplexMismatch } from "./duplex-mismatch.js";
import { emissionClass } from "./emission-class.js";
import { emissionLimits } from "./emission-limits.js";
import { emissionMask } from "./emission-mask.js";
import { endArrangement } from "./end-arrangement.js";
import { EQUIPMENT_HOP_RULES, EQUIPMENT_NETWORK_RULES, standbyMargin } from "./equipment/index.js";
import { fadeMargin } from "./fade-margin.js";
import { fadingValidity } from "./fading-validity.js";
import { farField } from "./far-field.js";
import { feederOutOfBand } from "./feeder-out-of-band.js";
import { frequencyOffChannel } from "./frequency-off-channel.js";
import { frequencyOutsideTuning } from "./frequency-outside-tuning.js";
import { groundDiffersFromTerrain } from "./ground-differs-from-terrain.js";
import { halfOutsideRadio } from "./half-outside-radio.js";
import { hopIncomplete } from "./hop-incomplete.js";
import { interferenceCriteria } from "./interference-criteria.js";
import { interferenceDegradation } from "./interference-degradation.js";
import { interferencePreview } from "./interference-preview.js";
import { interferenceUnderstated } from "./interference-understated.js";
import { levelBelowThreshold } from "./level-below-threshold.js";
import { LICENCE_RULES } from "./licences/index.js";
import { linkAvailability } from "./link-availability.js";
import { linkQuality } from "./link-quality.js";
import { modeWidth } from "./mode-width.js";
import { multipathAssumed } from "./multipath-assumed.js";
import { namesLookAlike } from "./names-look-alike.js";
import { noTerrain } from "./no-terrain.js";
import { notCounted } from "./not-counted.js";
import { notJudged } from "./not-judged.js";
import { objectiveMissing } from "./objective-missing.js";
import { obstacleOffPath } from "./obstacle-off-path.js";
import { othersColumn } from "./others-column.js";
import { othersFar } from "./others-far.js";
import { othersHarmed } from "./others-harmed.js";
import { othersRows } from "./others-rows.js";
import { othersUnusable } from "./others-unusable.js";
import { overload } from "./overload.js";
import { pathLength } from "./path-length.js";
import { patternFile } from "./pattern-file.js";
import { patternImplausible } from "./pattern-implausible.js";
import { policyUnknown } from "./policy-unknown.js";
import { positionSlip } from "./position-slip.js";
import { powerAboveMode } from "./power-above-mode.js";
import { powerControlRange } from "./power-control-range.js";
import { rainEstimate } from "./rain-estimate.js";
import { rainRateSuperseded } from "./rain-rate-superseded.js";
import { rainValidity } from "./rain-validity.js";
import { reflectionRipple } from "./reflection-ripple.js";
import { requiredAccepted } from "./required-accepted.js";
import type { HopRule, NetworkRule, Rule } from "./rule.js";
import { secondAntennaClearance } from "./second-antenna-clearance.js";
import { sheetLogo } from "./sheets/sheet-logo.js";
import { sheetSection } from "./sheets/sheet-section.js";
import { sheetsDoubled } from "./sheets/sheets-doubled.js";
import { signatureWithoutMode } from "./signature-without-mode.js";
import { siteHighAndLow } from "./site-high-and-low.js";
import { siteUnused } from "./site-unused.js";
import { spectrumImplausible } from "./spectrum-implausible.js";
import { standbyLevel } from "./standby-level.js";
import { structureInFeet } from "./structure-in-feet.js";
import { surveyDiffersFromTerrain } from "./survey-differs-from-terrain.js";
import { surveyLength } from "./survey-length.js";
import { surveySource } from "./survey-source.js";
import { surveyUnusable } from "./survey-unusable.js";
import { terrainGap } from "./terrain-gap.js";
import { thresholdImplausible } from "./threshold-implausible.js";
import { uncheckedMethods } from "./unchecked-methods.js";

/** Causes stand before their consequences. */
export const HOP_RULES: readonly HopRule[] = [
  hopIncomplete,
  pathLength,
  objectiveMissing,
  surveyUnusable,
  surveyLength,
  noTerrain,
  terrainGap,
  obstacleOffPath,
  antennaAboveStructure,
  antennaWithoutStructure,
  antennaBelowGround,
  bothEndsSameHalf,
  endArrangement,
  couplerWrongKind,
  couplerMissing,
  antennaPortsShort,
  frequencyOutsideTuning,
  antennaOutOfBand,
  couplerOutOfBand,
  feederOutOfBand,
  powerAboveMode,
  powerControlRange,
  clearance,
  notJudged,
  diversityClearance,
  secondAntennaClearance,
  diffractionLoss,
  halfOutsideRadio,
  channelOutsideRadio,
  frequencyOffChannel,
  channelCount,
  modeWidth,
  duplexMismatch,
  antennaSinglePolarized,
  antennaNotNeeded,
  couplerNotNeeded,
  ...EQUIPMENT_HOP_RULES,
  farField,
  emissionLimits,
  overload,
  levelBelowThreshold,
  standbyLevel,
  standbyMargin,
  capacity,
  rainRateSuperseded,
  rainValidity,
  fadingValidity,
  diversityIncomplete,
  reflectionRipple,
  availability,
  linkAvailability,
  linkQuality,
  fadeMargin,
  ...AS_BUILT_HOP_RULES,
];

export const NETWORK_RULES: readonly NetworkRule[] = [
  namesLookAlike,
  positionSlip,
  structureInFeet,
  siteHighAndLow,
  siteUnused,
  groundDiffersFromTerrain,
  surveyDiffersFromTerrain,
  surveySource,
  couplerImpossible,
  ...EQUIPMENT_NETWORK_RULES,
  antennaGainImplausible,
  thresholdImplausible,
  signatureWithoutMode,
  spectrumImplausible,
  patternImplausible,
  patternFile,
  interferenceCriteria,
  interferenceDegradation,
  interferenceUnderstated,
  couplingLossSite,
  othersUnusable,
  othersColumn,
  othersRows,
  othersFar,
  othersHarmed,
  ...DEMAND_RULES,
  ...LICENCE_RULES,
  sheetsDoubled,
  sheetLogo,
  sheetSection,
  ...AS_BUILT_NETWORK_RULES,
  couplingLossMissing,
  emissionMask,
  emissionClass,
  channelPlanUnconfirmed,
  climateMissing,
  multipathAssumed,
  notCounted,
  defaultInputs,
  uncheckedMethods,
  interferencePreview,
  rainEstimate,
];

/** Every rule by its identifier. */
export const RULES: ReadonlyMap<string, Rule> = new Map(
  [
    ...HOP_RULES,
    ...NETWORK_RULES,
    acceptanceExpired,
    acceptanceReason,
    acceptanceUnused,
    acceptanceUnknown,
    policyUnknown,
    requiredAccepted,
  ].map((rule) => [rule.id, rule]),
);
