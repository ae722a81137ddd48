/** What is to be read at line-up, with fields to fill in: filled in it goes in again by `import`. */
import { type ExpectedLevel, expectedLevels, levelWindowDb } from "../../as-built/expected.js";
import { type HeldReading, heldReadings } from "../../as-built/held.js";
import type { Hop } from "../../design/design.js";
import { rssiVoltage } from "../../equipment/rssi.js";
import type { HopResult } from "../../evaluate/account/result.js";
import { type List, type ListColumn, listOf, number, shownOnColumn, text } from "./list.js";
import type { ListedDesign } from "./listed-design.js";

interface Row {
  readonly hop: Hop;
  readonly expected: ExpectedLevel;
  readonly modulation: string;
  readonly promisedDbm: number;
  /** Whether the hop has several carriers: then each reading says which. */
  readonly several: boolean;
  /** The latest, where there is one. */
  readonly reading?: HeldReading;
}

const COLUMNS: readonly ListColumn<Row>[] = [
  text("hop", ({ hop }) => hop.name),
  text("measured_at", ({ expected }) => expected.to),
  text("sent_from", ({ expected }) => expected.from),
  text("branch", ({ expected }) => expected.branch),
  text("sender", ({ expected }) => (expected.sender === "main" ? "main" : "standby")),
  number("carrier", 0, ({ expected, several }) => (several ? expected.carrier : undefined)),
  text("polarization", ({ expected, several }) => (several ? expected.polarization : undefined)),
  text("mode", ({ modulation }) => modulation),
  number("promised_dBm", 1, ({ promisedDbm }) => promisedDbm),
  number("window_dB", 1, ({ hop }) => levelWindowDb(hop)),
  number("test_voltage_V", 2, ({ hop, promisedDbm }) => {
    const found = rssiVoltage(hop.radio?.unit?.rssi ?? [], promisedDbm);
    return found.ok ? found.voltageV : undefined;
  }),
  number("measured_dBm", 4, ({ reading }) => reading?.measured.levelDbm),
  text("power_control", ({ reading }) => reading?.measured.powerControl),
  { head: "measured_on", type: "date", of: ({ reading }) => reading?.measured.on },
  text("measured_by", ({ reading }) => reading?.measured.by),
  text("remark", ({ reading }) => reading?.measured.remark),
];

/** Every way through the branches in the mode that runs in clear air, and other modes of which there is a reading. */
function rowsOf(hop: Hop, result: HopResult): Row[] {
  const readings = (heldReadings(hop, result)?.readings ?? []).filter(
    ({ verdict }) => verdict !== "replaced",
  );
  const all = expectedLevels(hop, result);
  const several = new Set(all.map(({ carrier }) => carrier)).size > 1;
  return all.flatMap((expected) =>
    expected.modes.flatMap((mode): Row[] => {
      const own = readings.filter((one) => isOf(one, expected) && one.mode?.modulation === mode.modulation);
      if (own.length === 0 && mode !== expected.modes.at(-1)) return [];
      const { modulation, levelDbm: promisedDbm } = mode;
      // One with and one without power control are two.
      return (own.length === 0 ? [undefined] : own).map((reading) => ({
        hop,
        expected,
        modulation,
        promisedDbm,
        several,
        reading,
      }));
    }),
  );
}

function isOf({ expected }: HeldReading, { to, branch, sender, carrier }: ExpectedLevel): boolean {
  return (
    expected !== undefined &&
    expected.to === to &&
    expected.branch === branch &&
    expected.sender === sender &&
    expected.carrier === carrier
  );
}

export function lineUpList({ last, results, shownOn }: ListedDesign): List {
  const rows = [...last.hops.keys()].flatMap((name) => {
    const known = results.get(name);
    return known === undefined ? [] : rowsOf(known.hop, known.result);
  });
  return listOf("line-up", [...COLUMNS, ...shownOnColumn(shownOn)], rows);
}
