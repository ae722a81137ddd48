/** Which rules have fixes. A rule without an entry can still be accepted. */

import { removeAcceptance } from "./accept.js";
import { proposedChanges } from "./changes.js";
import { addCoupler, lessUnequal, otherAntenna, otherCoupler, removeCoupler } from "./equipment.js";
import type { QuickFix, ToMend } from "./fix.js";
import { otherRadioOrChannel } from "./frequencies.js";
import { addAntenna, removeAntenna } from "./further.js";
import { exchangeHalves, otherHalf } from "./halves.js";
import { clearFurtherHeight, clearHeights, lowerToStructure, stateStructure } from "./heights.js";
import {
  addAggregation,
  addClock,
  addController,
  addIfCards,
  addTrafficCard,
  otherInput,
  otherSlot,
  removePort,
  writePortsDown,
} from "./indoor.js";
import { addMissingLines } from "./missing-lines.js";
import { narrowMode, statePolarization } from "./modes.js";
import { arrangementOfRadio, otherSubBand, removeChannel, withoutXpic } from "./mounting.js";
import { mendPosition } from "./positions.js";
import { removeGround, removePower, removeSeverity } from "./remove.js";
import { renameRule } from "./rename-rule.js";
import { stateSurveySource } from "./survey.js";
import { feetAboveStructure, otherUnit } from "./units.js";
import { addWaveguide, directOrFeeder, lengthenFeeder, mountSeparately, shortenPiece } from "./waveguide.js";

/** Proposals in the order in which they are tried. */
export const PROPOSALS: Readonly<Record<string, ((toMend: ToMend) => readonly QuickFix[]) | undefined>> = {
  "path-length": mendPosition,
  "position-slip": mendPosition,
  clearance: clearHeights,
  "diversity-clearance": clearFurtherHeight,
  "second-antenna-clearance": clearFurtherHeight,
  "diffraction-loss": clearHeights,
  "antenna-above-structure": (toMend) => [...feetAboveStructure(toMend), ...lowerToStructure(toMend)],
  "structure-in-feet": otherUnit,
  "antenna-without-structure": stateStructure,
  "both-ends-same-half": otherHalf,
  "site-high-and-low": exchangeHalves,
  "antenna-out-of-band": otherAntenna,
  "antenna-single-polarized": otherAntenna,
  "coupler-missing": addCoupler,
  "antenna-ports-short": addAntenna,
  "antenna-not-needed": removeAntenna,
  "diversity-incomplete": removeAntenna,
  "coupler-wrong-kind": otherCoupler,
  "coupler-out-of-band": otherCoupler,
  "coupler-not-needed": removeCoupler,
  "waveguide-missing": addWaveguide,
  "direct-mounting": mountSeparately,
  "direct-with-feeder": directOrFeeder,
  "feeder-too-short": lengthenFeeder,
  "flexible-guide-long": shortenPiece,
  "hop-incomplete": addMissingLines,
  "duplex-mismatch": otherRadioOrChannel,
  "frequency-outside-tuning": otherRadioOrChannel,
  "frequency-off-channel": otherRadioOrChannel,
  "half-outside-radio": (toMend) => [...exchangeHalves(toMend), ...otherRadioOrChannel(toMend)],
  "channel-outside-radio": otherRadioOrChannel,
  "mode-width": narrowMode,
  "polarization-open": statePolarization,
  "sub-band": otherSubBand,
  "construction-mismatch": arrangementOfRadio,
  "xpic-missing": withoutXpic,
  "channel-count": removeChannel,
  "slot-wrong-kind": otherSlot,
  "slot-doubled": otherSlot,
  "controller-protection": addController,
  "if-port-claim": removePort,
  "if-ports-short": addIfCards,
  "if-ports-searched": writePortsDown,
  "traffic-ports-short": addTrafficCard,
  "aggregation-missing": addAggregation,
  "emulation-clock": addClock,
  "alarm-input": otherInput,
  "power-above-mode": removePower,
  "ground-differs-from-terrain": (toMend) => [...otherUnit(toMend), ...removeGround(toMend)],
  "survey-source": stateSurveySource,
  availability: proposedChanges,
  "link-availability": proposedChanges,
  "link-quality": proposedChanges,
  "fade-margin": proposedChanges,
  "level-below-threshold": proposedChanges,
  capacity: proposedChanges,
  overload: proposedChanges,
  "standby-level": lessUnequal,
  "standby-margin": lessUnequal,
  "acceptance-unused": removeAcceptance,
  "acceptance-unknown": (toMend) => [...renameRule(toMend), ...removeAcceptance(toMend)],
  "policy-unknown": (toMend) => [...renameRule(toMend), ...removeSeverity(toMend)],
};
