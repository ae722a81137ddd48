/** What comes in over standard input, before it is a message: held by bounds, answered or told in one line. */
import { type ChildProcess, spawn } from "node:child_process";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { MOST_MESSAGE_BYTES } from "../../server/lsp/transport/bounded-input.js";
import { NOTIFICATIONS, REQUESTS } from "../../server/lsp/transport/shapes.js";

const SERVER = join(import.meta.dirname, "../../dist/hopwright.cjs");
const LONG = 120_000;
/** Of the process in all, of which Node itself takes some 80. */
const MOST_MB = 250;

interface Heard {
  readonly id?: unknown;
  readonly method?: string;
  readonly params?: { readonly message?: string };
  readonly result?: unknown;
  readonly error?: { readonly code: number; readonly message: string };
}

/** Speaks to the server byte by byte. */
class Wire {
  private readonly child: ChildProcess = spawn(process.execPath, [SERVER, "lsp", "--stdio"]);
  private heard = Buffer.alloc(0);
  private stderr = "";
  readonly messages: Heard[] = [];
  private wake = () => {};
  readonly ended: Promise<{ readonly status: number | null; readonly stderr: string }>;

  constructor() {
    this.child.stdout!.on("data", (piece: Buffer) => this.hear(piece));
    this.child.stderr!.on("data", (piece: Buffer) => (this.stderr += String(piece)));
    this.child.stdin!.on("error", () => {});
    this.ended = new Promise((resolve) =>
      this.child.on("close", (status) => resolve({ status, stderr: this.stderr })),
    );
  }

  private hear(piece: Buffer): void {
    this.heard = Buffer.concat([this.heard, piece]);
    for (;;) {
      const end = this.heard.indexOf("\r\n\r\n");
      if (end < 0) break;
      const bytes = Number(/Content-Length: (\d+)/.exec(this.heard.toString("latin1", 0, end))![1]);
      if (this.heard.length < end + 4 + bytes) break;
      this.messages.push(JSON.parse(this.heard.toString("utf8", end + 4, end + 4 + bytes)));
      this.heard = this.heard.subarray(end + 4 + bytes);
    }
    this.wake();
  }

  /** @returns once it is taken, or the server has ended */
  write(bytes: string | Buffer): Promise<void> {
    return new Promise((resolve) => this.child.stdin!.write(bytes, () => resolve()));
  }

  say(message: unknown): Promise<void> {
    const text = JSON.stringify(message);
    return this.write(`Content-Length: ${Buffer.byteLength(text)}\r\n\r\n${text}`);
  }

  async until<T>(found: () => T | undefined): Promise<T> {
    for (;;) {
      const value = found();
      if (value !== undefined) return value;
      await new Promise<void>((resolve) => (this.wake = resolve));
    }
  }

  async ask(id: number, method: string, params?: unknown): Promise<Heard> {
    await this.say({ jsonrpc: "2.0", id, method, ...(params !== undefined && { params }) });
    return this.until(() => this.messages.find((one) => one.id === id));
  }

  told(words: RegExp): Promise<string> {
    return this.until(
      () => this.messages.find((one) => words.test(one.params?.message ?? ""))?.params?.message,
    );
  }

  initialize(): Promise<unknown> {
    return this.ask(1, "initialize", { processId: process.pid, rootUri: null, capabilities: {} });
  }

  /** The most memory that the process ever held. */
  peakMb(): number {
    const [, kb] = /^VmHWM:\s+(\d+) kB$/m.exec(readFileSync(`/proc/${this.child.pid}/status`, "utf8"))!;
    return Number(kb) / 1024;
  }

  end(): Promise<{ readonly status: number | null; readonly stderr: string }> {
    this.child.stdin!.end();
    return this.ended;
  }
}

/** Writes as many zeros, a megabyte at a time, without ever holding them. */
async function writeZeros(wire: Wire, bytes: number): Promise<void> {
  const piece = Buffer.alloc(2 ** 20, "0");
  for (let left = bytes; left > 0; left -= piece.length)
    await wire.write(piece.subarray(0, Math.min(left, piece.length)));
}

test(
  "a message beyond the bound is passed over and never held: a request is answered, another is told, and the next is heard",
  async () => {
    const wire = new Wire();
    await wire.initialize();
    const bytes = 5 * MOST_MESSAGE_BYTES;
    for (const [begin, answered] of [
      ['{"jsonrpc":"2.0","id":7,"method":"workspace/symbol","params":{"query":"', true],
      ['{"jsonrpc":"2.0","method":"textDocument/didOpen","params":{"text":"', false],
    ] as const) {
      await wire.write(`content-length:  ${bytes}\r\nContent-Type: anything\r\n\r\n${begin}`);
      await writeZeros(wire, bytes - begin.length);
      const words = /it has 640 MB, and up to 128 MB are read$/;
      if (answered)
        expect(await wire.until(() => wire.messages.find(({ id }) => id === 7))).toMatchObject({
          error: { code: -32602, message: "workspace/symbol: it has 640 MB, and up to 128 MB are read" },
        });
      else expect(await wire.told(words)).toMatch(/^left unheeded: textDocument\/didOpen: /);
    }
    expect(await wire.ask(8, "workspace/symbol", { query: "" })).toMatchObject({ result: [] });
    expect(wire.peakMb()).toBeLessThan(MOST_MB);
    await wire.ask(9, "shutdown");
    expect(await wire.end()).toEqual({ status: 0, stderr: "" });
  },
  LONG,
);

test(
  "a message of the bound itself is read",
  async () => {
    const wire = new Wire();
    await wire.initialize();
    const [begin, end] = ['{"jsonrpc":"2.0","id":2,"method":"workspace/symbol","params":{"query":"', '"}}'];
    await wire.write(`Content-Length: ${MOST_MESSAGE_BYTES}\r\n\r\n${begin}`);
    await writeZeros(wire, MOST_MESSAGE_BYTES - begin.length - end.length);
    await wire.write(end);
    expect(await wire.until(() => wire.messages.find(({ id }) => id === 2))).toMatchObject({ result: [] });
    await wire.end();
  },
  LONG,
);

test.each([
  ["a header that never ends", "x".repeat(2 ** 20), "a header of more than 4096 bytes"],
  ["many of them", "X: y\r\n".repeat(2 ** 18), "a header of more than 4096 bytes"],
  ["no length", "Content-Type: x\r\n\r\n{}", "a header without the length of its message"],
  ["a length that is none", "Content-Length: -5\r\n\r\n{}", "a header without the length of its message"],
  ["one beyond numbers", `Content-Length: ${"9".repeat(400)}\r\n\r\n{}`, "a header without the length"],
])(
  "after %s nothing can be found any more: the server ends in one line",
  async (_what, bytes, reason) => {
    const wire = new Wire();
    await wire.write(bytes);
    const { status, stderr } = await wire.ended;
    expect([status, stderr]).toEqual([
      1,
      expect.stringMatching(/^error: the input is no language server protocol: [^\n]+\n$/),
    ]);
    expect(stderr).toContain(reason);
  },
  LONG,
);

test(
  "bytes in any pieces are the same messages; what is no JSON or no message is told in one line",
  async () => {
    const wire = new Wire();
    await wire.initialize();
    const text = JSON.stringify({
      jsonrpc: "2.0",
      id: 2,
      method: "workspace/symbol",
      params: { query: "é" },
    });
    for (const byte of Buffer.from(`Content-Length: ${Buffer.byteLength(text)}\r\n\r\n${text}`))
      await wire.write(Buffer.of(byte));
    await wire.until(() => wire.messages.find(({ id }) => id === 2));
    for (const [body, words] of [
      ["{", "a message: it is no JSON"],
      ["null", "a message that is no request"],
      ["[]", "a message that is no request"],
      ['{"id":{},"method":"shutdown"}', "a message that is no request"],
      [`${"[".repeat(200_000)}`, "a message: it is no JSON"],
      [`${"[".repeat(200_000)}${"]".repeat(200_000)}`, "a message that is no request"],
      ['{"method":"textDocument/didOpen"}', "textDocument/didOpen: params must be an object"],
    ] as const) {
      const before = wire.messages.length;
      await wire.write(`Content-Length: ${body.length}\r\n\r\n${body}`);
      const found = await wire.until(() =>
        wire.messages.slice(before).find(({ method }) => method === "window/logMessage"),
      );
      expect(found.params?.message).toContain(`left unheeded: ${words}`);
      expect(found.params?.message).not.toContain("\n");
    }
    await wire.end();
  },
  LONG,
);

/** Values that parameters never have, and that stand where each part of them should. */
const WRONG = [null, 5, "x", true, [], [[]], [null], {}];
const AT = { textDocument: { uri: "file:///nowhere/a.hop" }, position: { line: 0, character: 0 } };
const RANGE = { start: AT.position, end: AT.position };
/** Every field that any message has, each as it should be. */
const RIGHT = {
  ...AT,
  range: RANGE,
  context: { includeDeclaration: true, diagnostics: [] },
  newName: "x",
  query: "x",
  uri: "file:///nowhere/a.hop",
  revision: "main",
  line: 1,
  hop: "A-B",
  changes: [{ uri: "file:///nowhere/a.hop", type: 1 }],
  contentChanges: [{ text: "x", range: RANGE }],
  event: { added: [{ uri: "file:///nowhere" }], removed: [{ uri: "file:///nowhere" }] },
  capabilities: { workspace: { workspaceEdit: {}, didChangeWatchedFiles: {}, inlayHint: {}, codeLens: {} } },
  workspaceFolders: [{ uri: "file:///nowhere", name: "x" }],
  value: "off",
};

/** The whole with one part of it, at any depth, replaced by what is no such thing or left out. */
function* spoilt(value: unknown): Iterable<unknown> {
  yield* WRONG;
  yield undefined;
  if (typeof value !== "object" || value === null) return;
  for (const key of Object.keys(value))
    for (const part of spoilt((value as Record<string, unknown>)[key]))
      yield Array.isArray(value) ? value.with(Number(key), part) : { ...value, [key]: part };
}

const FAULT =
  /undefined|not a function|Cannot read|Cannot destructure|not iterable|NaN|is not valid JSON|failed/;

test(
  "every request with every malformed parameter is answered, before initialize and after, and never by a fault of the code",
  async () => {
    for (const ready of [false, true]) {
      const wire = new Wire();
      if (ready) await wire.initialize();
      let id = 10;
      const asked = new Map<number, string>();
      for (const method of REQUESTS.keys()) {
        if (method === "shutdown" || (ready && method === "initialize")) continue;
        for (const params of spoilt(RIGHT)) {
          // The one that is in order would be the last of its kind.
          if (method === "initialize" && isInOrder(params)) continue;
          asked.set(++id, `${method} ${JSON.stringify(params)}`);
          await wire.say({ jsonrpc: "2.0", id, method, params });
        }
      }
      await wire.until(() => wire.messages.find((one) => one.id === id));
      const answers = new Map(wire.messages.map((one) => [one.id, one]));
      const wrong = [...asked].flatMap(([of, what]) => {
        const answer = answers.get(of);
        const said = answer ? (answer.error?.message ?? "") : "undefined";
        const early = ready || what.startsWith("initialize ") || answer?.error?.code === -32002;
        return FAULT.test(said) || /\n/.test(said) || !early ? [`${what}: ${said}`] : [];
      });
      expect(wrong).toEqual([]);
      expect(asked.size).toBeGreaterThan(1000);
      const [known, last] = [wire.messages.length, id + 1];
      for (const method of NOTIFICATIONS.keys())
        if (method !== "exit")
          for (const params of spoilt(RIGHT)) await wire.say({ jsonrpc: "2.0", method, params });
      expect(await wire.ask(last, "workspace/symbol", { query: "" })).toMatchObject(
        ready ? { result: [] } : { error: { code: -32002 } },
      );
      const logged = wire.messages.slice(known).flatMap(({ params }) => params?.message ?? []);
      expect(logged.filter((line) => FAULT.test(line) || line.includes("\n"))).toEqual([]);
      await wire.end();
    }
  },
  LONG,
);

/** Whether it is what initialize reads. */
function isInOrder(params: unknown): boolean {
  return REQUESTS.get("initialize")!(params, "params") === undefined;
}
