/** The words of sheets, a table a language: whoever makes a sheet takes every word, figure and day from here. */

import type { SignatureCode } from "../../../as-built/signatures.js";
import type { UnitRole } from "../../../design/as-built.js";
import type { Polarization } from "../../../design/design.js";
import type { PageLanguage } from "../../document/document.js";
import type { AcceptanceWords } from "./acceptance-words.js";
import type { BookWords } from "./book-words.js";
import type { DeskWords } from "./desk-words.js";
import type { InstallationWords } from "./installation-words.js";
import type { RevisionWords } from "./revision-words.js";

export interface SheetWords {
  readonly language: PageLanguage;
  /** `2026-05-02` as a reader of the language writes it. */
  day(iso: string): string;
  /** Figures with the decimal mark of the language. @param text with a point */
  figure(text: string): string;
  readonly revision: RevisionWords;
  readonly installation: InstallationWords;
  readonly book: BookWords;
  readonly common: {
    readonly designOf: string;
    readonly site: string;
    readonly what: string;
    readonly planned: string;
    readonly built: string;
    readonly difference: string;
    readonly notStated: string;
    readonly from: string;
    readonly to: string;
    readonly mode: string;
    readonly name: string;
    readonly date: string;
    readonly signature: string;
    readonly serial: string;
    readonly unit: string;
    readonly antenna: string;
    colophon(version: string, on: string): string;
  };
  readonly safety: {
    readonly title: string;
    /** Local codes first. */
    readonly items: readonly string[];
    /** In place of all but the first, on a sheet that is signed. */
    readonly brief: string;
    keepOut(site: string, publicM: string, workersM: string): string;
    readonly keepOutLaw: string;
  };
  readonly errors: {
    readonly title: string;
    /** Above those that a sheet names; their messages stay English. */
    readonly told: string;
    /** Head of the column of hop, site or demand. */
    readonly about: string;
    /** On sheets of the whole design. */
    counted(count: number): string;
    readonly tells: string;
    /** Beside a verdict that has nothing to do with them. */
    readonly below: string;
  };
  readonly roles: Readonly<Record<UnitRole, string>>;
  readonly polarizations: Readonly<Record<Polarization, string>>;
  carrier(number: number): string;
  readonly senderStandby: string;
  readonly facts: {
    readonly title: string;
    readonly length: string;
    readonly height: string;
    readonly azimuthTrue: string;
    readonly azimuthCompass: (day: string) => string;
    readonly azimuthGrid: string;
    readonly declination: string;
    /** An azimuth with the north that it is counted from, for each cell by itself. */
    readonly norths: Readonly<Record<"true" | "magnetic" | "grid", (azimuth: string) => string>>;
    /** Near a magnetic pole, or of a site without a place. */
    readonly noDeclination: string;
    readonly noMagneticDay: string;
    readonly compassTold: string;
    readonly polarizationTold: string;
    readonly elevation: string;
    readonly channel: string;
    readonly modes: string;
    readonly transmits: string;
    readonly receives: string;
    readonly polarization: string;
    readonly radio: string;
    readonly power: string;
    readonly coupler: string;
    readonly noCoupler: string;
    readonly cable: string;
  };
  readonly lineUp: {
    readonly title: string;
    readonly order: string;
    readonly steps: readonly string[];
    /** Before the last two of them, where an end has units that wait, or both polarizations carry. */
    readonly standbyStep: string;
    readonly polarizationStep: string;
    readonly done: string;
    readonly levels: string;
    levelsTold(windowDb: string): string;
    missed(criteria: string): string;
    direction(from: string, to: string): string;
    readonly receiver: string;
    readonly sender: string;
    readonly promised: string;
    readonly window: string;
    readonly testVoltage: string;
    readonly voltageWindow: string;
    readonly measured: string;
    readonly voltageRead: string;
    /** Of a reading that did not agree: another is asked for. */
    readBefore(reading: string): string;
    readonly otherModes: string;
    readonly lessTitle: string;
    readonly lessTold: string;
    readonly sign: string;
    readonly lessBy: string;
    levelAt(site: string): string;
    readonly signs: Readonly<Record<SignatureCode, string>>;
    readonly offCurve: string;
    readonly fields: string;
    readonly fieldNames: {
      readonly readOn: string;
      readonly readBy: string;
      readonly instrument: string;
      readonly weather: string;
      readonly powerControlOff: string;
      azimuthBuilt(site: string): string;
      heightBuilt(site: string): string;
      diversityHeightBuilt(site: string): string;
      /** Of a hop on both polarizations: read while the sender of one is on, see `polarizationStep`. */
      discrimination(site: string, sender: string): string;
      serialOf(what: string, site: string): string;
      readonly remarks: string;
    };
    readonly back: string;
  };
  readonly desk: DeskWords;
  readonly templates: {
    readonly fields: string;
    readonly instructions: string;
    readonly logo: string;
    logoOf(company: string): string;
  };
  readonly acceptance: AcceptanceWords;
}
