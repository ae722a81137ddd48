import type { Pace } from "../session/design-session.js";

const SILENT_MS = 500;
const BETWEEN_MS = 100;

export interface ProgressLine {
  /** Counts hops while they are judged. */
  readonly pace: Pace;
  /** Counts what is made afterwards, of which nobody knows how much it will be. */
  count(done: number, what: string): void;
  /** Takes the line away; it may come again. */
  end(): void;
}

/** One line on standard error that counts: on a terminal only, and only once the work has taken a while. */
export function progressLine(): ProgressLine {
  if (!process.stderr.isTTY) return { pace: {}, count: () => {}, end: () => {} };
  const start = performance.now();
  let next = start + SILENT_MS;
  let shown = false;
  const show = (words: () => string) => {
    const now = performance.now();
    if (now < next) return;
    next = now + BETWEEN_MS;
    shown = true;
    process.stderr.write(`\r\x1b[2K${words()}`);
  };
  return {
    pace: {
      pause(done, total) {
        show(() => `${done} of ${total} hops`);
        return undefined;
      },
    },
    count: (done, what) => show(() => `${done} ${what}`),
    end() {
      if (shown) process.stderr.write("\r\x1b[2K");
      shown = false;
    },
  };
}
