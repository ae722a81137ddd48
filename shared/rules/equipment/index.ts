/** Rules about equipment, in the order of cause and consequence. */
import type { HopRule, NetworkRule } from "../rule.js";
import { aggregationMissing } from "./aggregation-missing.js";
import { airPath } from "./air-path.js";
import { alarmInput } from "./alarm-input.js";
import { antennasOverlap } from "./antennas-overlap.js";
import { armsExchanged } from "./arms-exchanged.js";
import { batteryHours } from "./battery-autonomy.js";
import { cableTooLong } from "./cable-too-long.js";
import { cableTooShort } from "./cable-too-short.js";
import { cableWrongKind } from "./cable-wrong-kind.js";
import { chassisDoubled } from "./chassis-doubled.js";
import { chassisHeat } from "./chassis-heat.js";
import { chassisNeeds } from "./chassis-needs.js";
import { chassisPower } from "./chassis-power.js";
import { chassisUnstated } from "./chassis-unstated.js";
import { constructionMismatch } from "./construction-mismatch.js";
import { controllerProtection } from "./controller-protection.js";
import { directMounting } from "./direct-mounting.js";
import { directWithFeeder } from "./direct-with-feeder.js";
import { dualBandPair } from "./dual-band-pair.js";
import { emulationClock } from "./emulation-clock.js";
import { ethernetPower } from "./ethernet-power.js";
import { feedSlot } from "./feed-slot.js";
import { feederLossImpossible } from "./feeder-loss-impossible.js";
import { feederTooShort } from "./feeder-too-short.js";
import { flexibleGuideLong } from "./flexible-guide-long.js";
import { ifCardUnit } from "./if-card-unit.js";
import { ifCardsDiffer } from "./if-cards-differ.js";
import { ifPortClaim } from "./if-port-claim.js";
import { ifPortsSearched } from "./if-ports-searched.js";
import { ifPortsShort } from "./if-ports-short.js";
import { interfaceMismatch } from "./interface-mismatch.js";
import { pairInTwoChassis } from "./pair-in-two-chassis.js";
import { pairOnOneCard } from "./pair-on-one-card.js";
import { plantPower } from "./plant-power.js";
import { polarizationNotTaken } from "./polarization-not-taken.js";
import { polarizationOpen } from "./polarization-open.js";
import { portsProposed } from "./ports-proposed.js";
import { rackFull } from "./rack-full.js";
import { servicePort } from "./service-port.js";
import { serviceTitle } from "./service-title.js";
import { slotDoubled } from "./slot-doubled.js";
import { slotWrongKind } from "./slot-wrong-kind.js";
import { slotsShort } from "./slots-short.js";
import { standbyMargin } from "./standby-margin.js";
import { structureOverload } from "./structure-overload.js";
import { subBand } from "./sub-band.js";
import { trafficPortsShort } from "./traffic-ports-short.js";
import { unitPortSlow } from "./unit-port-slow.js";
import { waveguideMissing } from "./waveguide-missing.js";
import { xpicMissing } from "./xpic-missing.js";
import { xpicPair } from "./xpic-pair.js";

/** About one hop by itself; `standbyMargin` stands apart, behind the rules of levels. */
export const EQUIPMENT_HOP_RULES: readonly HopRule[] = [
  subBand,
  constructionMismatch,
  polarizationNotTaken,
  polarizationOpen,
  armsExchanged,
  xpicMissing,
  waveguideMissing,
  directMounting,
  directWithFeeder,
  feederTooShort,
  flexibleGuideLong,
  interfaceMismatch,
  cableWrongKind,
  unitPortSlow,
];

export { standbyMargin };

export const EQUIPMENT_NETWORK_RULES: readonly NetworkRule[] = [
  dualBandPair,
  feederLossImpossible,
  cableTooLong,
  cableTooShort,
  chassisUnstated,
  chassisDoubled,
  slotWrongKind,
  slotDoubled,
  slotsShort,
  ifPortClaim,
  ifPortsShort,
  ifPortsSearched,
  ifCardUnit,
  ifCardsDiffer,
  pairOnOneCard,
  pairInTwoChassis,
  xpicPair,
  controllerProtection,
  chassisNeeds,
  serviceTitle,
  servicePort,
  trafficPortsShort,
  portsProposed,
  feedSlot,
  aggregationMissing,
  emulationClock,
  ethernetPower,
  alarmInput,
  chassisPower,
  chassisHeat,
  airPath,
  rackFull,
  plantPower,
  batteryHours,
  antennasOverlap,
  structureOverload,
];
