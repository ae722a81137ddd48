/** Readings in words, for messages and pages. */
import type { Measurement } from "../design/as-built.js";
import { decibels } from "../format/numbers.js";
import type { ExpectedLevel } from "./expected.js";
import type { SignatureCode } from "./signatures.js";

/** `TARN, standby, carrier 2, vertical`; what there is only one of is left out. */
export function placeWords({ to, branch, carrier, polarization }: ExpectedLevel, several: boolean): string {
  const parts = [
    to,
    branch === "main" ? undefined : branch,
    several ? `carrier ${carrier}` : undefined,
    several ? polarization : undefined,
  ];
  return parts.filter((part) => part !== undefined).join(", ");
}

/** `TARN, standby`, as the reading itself says it. */
export function readingPlace({ site, branch, carrier, polarization, mode, sender }: Measurement): string {
  const parts = [
    site,
    branch,
    carrier === undefined ? undefined : `carrier ${carrier}`,
    polarization,
    mode,
    sender === "standby" ? "sender on standby" : undefined,
  ];
  return parts.filter((part) => part !== undefined).join(", ");
}

/** `3.2 dB less`, `1.0 dB more`, `as promised`. */
export function deviationWords(lessDb: number): string {
  const size = decibels(Math.abs(lessDb));
  if (Math.abs(lessDb) < 0.05) return "as promised";
  return `${size} ${lessDb > 0 ? "less" : "more"}`;
}

const SIGNATURES: Readonly<Record<SignatureCode, string>> = {
  "one side lobe": "one antenna looks with its first side lobe",
  "both side lobes": "both antennas look with their first side lobes",
  "turned feed": "one feed is turned by 90 degrees against the other",
};

export function signatureWords(codes: readonly SignatureCode[]): string {
  return codes.map((code) => SIGNATURES[code]).join(", or ");
}
