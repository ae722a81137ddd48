/** `channels --open`: number, polarization and half proposed for all hops that lack them; written where asked. */
import { editsOf } from "../../../language/editor/fixes/write.js";
import { proposedChanges } from "../../../shared/interference/choose/changes.js";
import type { Proposed, Stage } from "../../../shared/interference/choose/propose.js";
import { CommandError, EXIT } from "../../command-error.js";
import { isOwn } from "../../files/own-file.js";
import { designFolder } from "../../findings/judged-folder.js";
import { acceptanceDay, stagesOf } from "../../findings/stages.js";
import { DesignSession } from "../../session/design-session.js";
import { loadProject } from "../../session/load.js";
import { proposeChannels } from "../../session/open-channels.js";
import { startThread } from "../../terrain/ahead.js";
import { Texts } from "../fix/texts.js";
import { FORMATS, formatNamed } from "../formats.js";
import { openChannelsJson } from "../print/open-channels-json.js";
import { type DesignProposal, openChannelsText } from "../print/open-channels-text.js";
import { progressLine } from "../progress.js";
import { note, paintStdout, print } from "../streams.js";
import { rewriteUnmoved } from "./fix.js";

export interface OpenChannelsOptions {
  readonly format: string;
  readonly today: string;
  readonly on?: string;
  readonly write?: boolean;
}

/** @returns the exit status: 0 all that is open has a proposal that passes no limit */
export async function openChannels(
  dir: string,
  { format, today, on, write = false }: OpenChannelsOptions,
): Promise<number> {
  const { name } = formatNamed(FORMATS.channels, format);
  const { project, unreadable } = loadProject(designFolder(dir));
  const [first] = unreadable;
  if (first !== undefined) throw new CommandError(`${first.path}: ${first.message}`);
  const models = [...project.designs()];
  if (models.length === 0) throw new CommandError(`${dir}: there is no design in this folder`);
  const texts = new Texts(project);
  const found: DesignProposal[] = [];
  const edits: Parameters<Texts["apply"]>[0][number][] = [];
  for (const model of models) {
    const day = on ?? stagesOf(model, today, {}).at(-1)!;
    model.setView({ on: day });
    const session = new DesignSession(model, { today, startThread });
    session.holdAcceptancesOn(acceptanceDay(day, stagesOf(model, today, {}).at(-2), today));
    const line = progressLine();
    await session.update(line.pace);
    line.end();
    const stage = stageLine();
    // Nothing breaks it off but the end of the program, and nothing is written before it is whole.
    const proposal = (await proposeChannels(session, {}, stage.show))!;
    stage.end();
    const { title } = model.design();
    found.push({ ...(title !== undefined && { title }), proposal });
    for (const one of proposal.proposed) {
      const own = editsOf(model, proposedChanges(one));
      const place = own?.find(({ file }) => !isOwn(model, file));
      if (own === undefined || place !== undefined) throw notWritable(one, place?.file);
      edits.push({ edits: own });
    }
  }
  const printer = name === "json" ? openChannelsJson : openChannelsText;
  await print(printer({ designs: found, paint: paintStdout }));
  const isChoice = edits.length > 0;
  if (isChoice && write) {
    texts.apply(edits);
    const changed = texts.changed();
    rewriteUnmoved(changed);
    note(`written: ${changed.length} ${changed.length === 1 ? "file" : "files"}; next: hopwright check`);
  } else if (isChoice) note("nothing is written yet: say --write");
  const isWhole = found.every(
    ({ proposal: { left, contradictions, beyond } }) =>
      left.length + contradictions.length + beyond.length === 0,
  );
  return isWhole ? EXIT.clean : EXIT.findings;
}

function notWritable({ open: { hop } }: Proposed, file: string | undefined): CommandError {
  return new CommandError(
    `${hop.name}: ${file === undefined ? "there is no place in its text for what is proposed" : `${file} is no file of this design`}; nothing was written`,
  );
}

/** What is being done, on one line, at a terminal alone. */
function stageLine(): { readonly show: (what: Stage) => void; end(): void } {
  if (!process.stderr.isTTY) return { show: () => {}, end: () => {} };
  return {
    show: (what) => void process.stderr.write(`\r\x1b[2K${what}`),
    end: () => void process.stderr.write("\r\x1b[2K"),
  };
}
