import { standaloneSvg } from "../../../shared/report/document/style.js";
import { drawProfile } from "../../../shared/report/draw/profile.js";
import { drawnLine } from "../../../shared/report/draw/profile-points.js";
import { CommandError } from "../../command-error.js";
import type { ProfileFormat } from "./format.js";
import { lineOf } from "./profile-line.js";

export const profileSvg: ProfileFormat = {
  name: "svg",
  what: "a drawing",
  print: (path) => {
    lineOf(path, drawnLine);
    const { hop, result, profile } = path;
    const drawn = profile && drawProfile(hop, result, profile);
    if (!drawn)
      throw new CommandError(
        `${hop.name}: no raster has a height along this path; add terrain that covers it`,
      );
    return [`${standaloneSvg(drawn.svg)}\n`];
  },
};
