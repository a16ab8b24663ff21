/** One version of the engine's arithmetic. */
export interface EngineChange {
  /** Three numbers with dots between them. */
  readonly version: string;
  /** The day it came, YYYY-MM-DD. */
  readonly date: string;
  /** What the same document, seed and draws give differently from the version before. */
  readonly changed: string;
}

/** Every version of the engine, newest first. */
export const engineChanges: readonly EngineChange[] = [
  {
    version: "2.0.0",
    date: "2026-11-25",
    changed:
      "Draws of routes that are rarely tried come from random-access streams; strata use one word a draw; there are new figures.",
  },
  { version: "1.0.0", date: "2026-11-25", changed: "The first engine." },
];
