/** The schedule of frequencies: a row a transmission, with what an administration asks for it. */
import type { Hop } from "../../design/design.js";
import type { Licence } from "../../design/licence.js";
import { ALL_BUILT } from "../../design/state.js";
import { heldHop, licencesFor } from "../../licence/held.js";
import type { Transmission } from "../../licence/transmissions.js";
import { arrangementAt } from "../../radio/arrangement-pairs.js";
import { inMHz } from "./hops.js";
import { type List, type ListColumn, listOf, number, shownOnColumn, text } from "./list.js";
import type { ListedDesign } from "./listed-design.js";

interface Row extends Transmission {
  readonly of: Hop;
  /** That it rests on. */
  readonly licence?: Licence;
  readonly until?: string;
}

const COLUMNS: readonly ListColumn<Row>[] = [
  text("hop", ({ hop }) => hop),
  number("carrier", 0, ({ carrier }) => carrier),
  text("site", ({ site }) => site),
  text("far_site", ({ farSite }) => farSite),
  text("plan", ({ channel }) => channel?.plan),
  number("channel_width_MHz", 6, ({ channel }) => inMHz(channel?.bandwidthHz)),
  number("channel", 0, ({ channel }) => channel?.number),
  text("half", ({ half }) => half),
  number("frequency_MHz", 6, ({ frequencyHz }) => inMHz(frequencyHz)),
  text("polarization", ({ polarization }) => polarization),
  text("arrangement", ({ of, at }) => arrangementAt(of, of.ends[at])),
  number("necessary_bandwidth_MHz", 6, ({ bandwidthHz }) => inMHz(bandwidthHz)),
  text("emission", ({ emission }) => emission),
  ...eirp("eirp_greatest", ({ greatestEirpDbm }) => greatestEirpDbm),
  ...eirp("eirp_judged_mode", ({ judgedEirpDbm }) => judgedEirpDbm),
  ...eirp("eirp_power_control", ({ controlledEirpDbm }) => controlledEirpDbm),
  text("antenna", ({ antenna }) => antenna),
  number("antenna_gain_dBi", 2, ({ gainDbi }) => gainDbi),
  number("antenna_beamwidth_deg", 2, ({ beamwidthDeg }) => beamwidthDeg),
  number("antenna_height_m", 4, ({ antennaHeightM }) => antennaHeightM),
  text("standby_antenna", ({ standby }) => standby?.antenna),
  number("standby_antenna_height_m", 4, ({ standby }) => standby?.antennaHeightM),
  number("azimuth_deg", 2, ({ azimuthDeg }) => azimuthDeg),
  number("elevation_deg", 2, ({ elevationDeg }) => elevationDeg),
  number("latitude_deg", 9, ({ position }) => position?.latitudeDeg),
  number("longitude_deg", 9, ({ position }) => position?.longitudeDeg),
  number("ground_m", 1, ({ groundM }) => groundM),
  text("licence", ({ licence }) => licence?.number),
  { head: "licence_until", type: "date", of: ({ licence }) => licence?.until },
  { head: "stands_until", type: "date", of: ({ until }) => until },
];

/** A power in both units that licences are written in. */
function eirp(head: string, dbm: (row: Row) => number | undefined): readonly ListColumn<Row>[] {
  return [
    number(`${head}_dBm`, 2, dbm),
    number(`${head}_dBW`, 2, (row) => {
      const found = dbm(row);
      return found === undefined ? undefined : found - 30;
    }),
  ];
}

export function channelList({ design, last, results, shownOn, today }: ListedDesign): List {
  const day = shownOn ?? today ?? ALL_BUILT;
  const rows = [...last.hops.values()].flatMap((hop): Row[] => {
    const judged = results.get(hop.name);
    const of = judged?.hop ?? hop;
    const { held } = heldHop(of, judged?.result, licencesFor(design, of.name), day);
    return held.map(({ sent, licence }) => ({ ...sent, of, licence, until: judged?.until }));
  });
  return listOf("channels", [...COLUMNS, ...shownOnColumn(shownOn)], rows);
}
