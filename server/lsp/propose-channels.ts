/** Channels for all open hops of a design, proposed and written by one edit, which one undo takes back. */
import {
  type Command,
  type Connection,
  LSPErrorCodes,
  MessageType,
  ResponseError,
  ShowMessageNotification,
  type TextEdit,
} from "vscode-languageserver";
import { editsOf } from "../../language/editor/fixes/write.js";
import { proposedChanges } from "../../shared/interference/choose/changes.js";
import type { Proposal } from "../../shared/interference/choose/propose.js";
import { isOwn } from "../files/own-file.js";
import { linesOf } from "../findings/lines.js";
import type { DesignSession } from "../session/design-session.js";
import { proposeChannels } from "../session/open-channels.js";
import { besideOthers } from "./channel-figures.js";
import type { Designs } from "./designs.js";
import { pathOf, uriOf } from "./locations.js";
import { PROPOSE_CHANNELS } from "./protocol.js";

/** What a code action runs, on the design of a document. */
export function proposeCommand(path: string): Command {
  return { title: "Propose channels", command: PROPOSE_CHANNELS, arguments: [uriOf(path)] };
}

export function registerProposing(connection: Connection, designs: () => Designs): void {
  connection.onExecuteCommand(async ({ command, arguments: args = [] }, token) => {
    const uri: unknown = args[0];
    if (command !== PROPOSE_CHANNELS || typeof uri !== "string") return null;
    const session = designs().sessionsOf(pathOf(uri))[0];
    if (session === undefined) return null;
    const progress = await connection.window.createWorkDoneProgress();
    progress.begin("Proposing channels", undefined, undefined, true);
    try {
      const files = new Set(session.model.allFiles());
      let isOther = false;
      const isStale = () =>
        isOther || token.isCancellationRequested || progress.token.isCancellationRequested;
      const pace = besideOthers({
        get isCancellationRequested() {
          return isStale();
        },
      });
      const pause: typeof pace.pause = (done, total) =>
        pace.pause?.(done, total)?.then(() => {
          for (const file of session.model.allFiles()) isOther ||= !files.has(file);
        });
      const proposal = await proposeChannels(session, { ...pace, pause }, (stage) => progress.report(stage));
      if (proposal === undefined) {
        if (isOther)
          await tell(
            connection,
            MessageType.Warning,
            "The design changed meanwhile: nothing was written, ask again.",
          );
        return null;
      }
      await write(connection, session, proposal);
    } finally {
      progress.done();
    }
    return null;
  });
}

async function write(connection: Connection, session: DesignSession, proposal: Proposal): Promise<void> {
  const changes: Record<string, TextEdit[]> = {};
  let written = 0;
  for (const one of proposal.proposed) {
    const edits = editsOf(session.model, proposedChanges(one));
    if (edits === undefined || !edits.every(({ file }) => isOwn(session.model, file))) continue;
    written++;
    for (const { file, start, end, newText } of edits)
      (changes[uriOf(file)] ??= []).push({
        range: linesOf(session.model.file(file)!).range(start, end),
        newText,
      });
  }
  if (written > 0) {
    const { applied } = await connection.workspace.applyEdit({
      label: "Propose channels",
      edit: { changes },
    });
    if (!applied) throw new ResponseError(LSPErrorCodes.RequestFailed, "the editor did not take the edit");
  }
  await tell(connection, MessageType.Info, told(proposal, written));
}

/** A notification: an editor that shows none loses nothing. */
function tell(connection: Connection, type: MessageType, message: string): Promise<void> {
  return connection.sendNotification(ShowMessageNotification.type, { type, message });
}

function told({ proposed, left, contradictions, beyond, channels }: Proposal, written: number): string {
  const open = proposed.length + left.length;
  if (open === 0) return "No hop lacks number, polarization or half.";
  const sentences = [`Channels for ${written} of ${open} open hops; all hops together take ${channels}.`];
  sentences.push(
    beyond.length === 0
      ? "No receiver passes what the network allows, 1 dB where it states nothing."
      : `${beyond.length} ${beyond.length === 1 ? "receiver passes" : "receivers pass"} what the network allows.`,
  );
  if (left.length + contradictions.length > 0)
    sentences.push("hopwright channels --open tells what stands against the others.");
  return sentences.join(" ");
}
