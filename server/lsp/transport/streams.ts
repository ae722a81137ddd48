/** The protocol over standard input and output. */
import { StreamMessageReader, StreamMessageWriter } from "vscode-languageserver/node";
import { BoundedInput } from "./bounded-input.js";
import { REFUSED_MESSAGE, type RefusedParams } from "./gate.js";

/** @param ended is told once that nothing more comes, and why unless the other side closed it */
export function inputOver(
  stream: NodeJS.ReadableStream,
  ended: (reason: string | undefined) => void,
): StreamMessageReader {
  const bounded = stream.pipe(new BoundedInput());
  bounded.once("error", (error) => ended(error.message)).once("end", () => ended(undefined));
  return new StreamMessageReader(bounded, { contentTypeDecoder: { name: "application/json", decode } });
}

export function outputOver(stream: NodeJS.WritableStream): StreamMessageWriter {
  return new StreamMessageWriter(stream);
}

/** What is no JSON is told like any other message that is not heeded. */
async function decode(bytes: Uint8Array) {
  try {
    return JSON.parse(new TextDecoder().decode(bytes));
  } catch {
    const params: RefusedParams = { method: "a message", reason: "it is no JSON" };
    return { jsonrpc: "2.0", method: REFUSED_MESSAGE, params };
  }
}
