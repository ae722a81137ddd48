/** Channels, polarizations and halves proposed for the open hops of a session's design. */
import { type Proposal, propose, type Stage } from "../../shared/interference/choose/propose.js";
import { stationTerms } from "../../shared/interference/station-book.js";
import type { DesignSession } from "./design-session.js";
import type { Pausing } from "./interference.js";

/** @returns undefined where it was broken off */
export async function proposeChannels(
  session: DesignSession,
  pace: Pausing = {},
  onStage?: (stage: Stage) => void,
): Promise<Proposal | undefined> {
  const inputs = await session.interferenceInputs();
  const { design, results } = inputs;
  const hops = [...design.hops.values()];
  const asked = { hops, results, around: stationTerms(inputs), plans: session.model.lookup.plans() };
  return session.interference.onCopy(
    inputs,
    (network, state) => propose(network, state, asked, onStage),
    pace,
  );
}
