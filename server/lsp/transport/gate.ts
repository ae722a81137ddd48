/**
 * What every message passes before its handler: it must be one, must come when it may, and its parameters must hold what
 * the handler reads. A request that does not is answered with what is wrong; a notification is left unheeded, and told.
 */
import {
  type Connection,
  ErrorCodes,
  Message,
  type MessageStrategy,
  type NotificationMessage,
  type RequestMessage,
  ResponseError,
} from "vscode-languageserver";
import { NOTIFICATIONS, REQUESTS } from "./shapes.js";

/** Stands for a message that is not handed on. No client sends it: its parameters are ours. */
export const REFUSED_MESSAGE = "hopwright/refused";
export interface RefusedParams {
  readonly method: string;
  readonly reason: string;
  readonly code?: number;
}

type Next = Parameters<MessageStrategy["handleMessage"]>[1];

export class Gate implements MessageStrategy {
  private state: "new" | "running" | "shut down" = "new";

  /** @param tell what is left unheeded, in one line */
  constructor(private readonly tell: (line: string) => void) {}

  /** Whether the other side has said that it ends. */
  get isShutDown(): boolean {
    return this.state === "shut down";
  }

  handleMessage(message: Message, next: Next): ReturnType<Next> {
    if (Message.isResponse(message)) return next(message);
    const isRequest = Message.isRequest(message);
    if (!isRequest && !Message.isNotification(message)) {
      this.tell("a message that is no request, no notification and no answer");
      return;
    }
    const refused = this.refusalOf(message, isRequest);
    if (refused && isRequest)
      return next({ ...message, method: REFUSED_MESSAGE, params: refused } as RequestMessage);
    if (refused) {
      if (refused.reason !== "") this.tell(inOneLine(refused));
      return;
    }
    if (message.method === "initialize") this.state = "running";
    if (message.method === "shutdown") this.state = "shut down";
    return next(message);
  }

  private refusalOf(
    { method, params }: RequestMessage | NotificationMessage,
    isRequest: boolean,
  ): RefusedParams | undefined {
    if (method === REFUSED_MESSAGE) return params as unknown as RefusedParams;
    const shape = (isRequest ? REQUESTS : NOTIFICATIONS).get(method);
    // A notification of a later protocol, or of somebody else, is nothing to be told.
    if (!shape)
      return isRequest
        ? { method, reason: "there is no such request", code: ErrorCodes.MethodNotFound }
        : { method, reason: "" };
    const untimely = this.untimely(method, isRequest);
    if (untimely) return { method, ...untimely };
    const reason = shape(params, "params");
    return reason === undefined ? undefined : { method, reason };
  }

  private untimely(method: string, isRequest: boolean): Omit<RefusedParams, "method"> | undefined {
    if (method === "exit") return undefined;
    if (this.state === "new" && method !== "initialize")
      return { reason: "initialize comes first", code: ErrorCodes.ServerNotInitialized };
    if (this.state !== "new" && method === "initialize")
      return { reason: "this was asked before", code: ErrorCodes.InvalidRequest };
    if (this.state === "shut down" && isRequest)
      return { reason: "the server was shut down", code: ErrorCodes.InvalidRequest };
    return undefined;
  }
}

/** Answers the requests that the gate refuses. */
export function answerRefused(connection: Connection): void {
  connection.onRequest(REFUSED_MESSAGE, (refused: RefusedParams) => {
    throw new ResponseError(refused.code ?? ErrorCodes.InvalidParams, inOneLine(refused));
  });
}

function inOneLine({ method, reason }: RefusedParams): string {
  return `${method.replace(/\p{Cc}/gu, "·").slice(0, 100)}: ${reason}`;
}
