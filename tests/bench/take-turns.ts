/** Something to be timed. */
export interface Timed {
  /** Runs once. @returns milliseconds it took; undefined when it cannot run here */
  readonly run: () => number | undefined | Promise<number | undefined>;
  /** Runs before the first that counts, 0 where none are given. */
  readonly warmUps?: number;
  /** Turns it takes part in, where fewer than there are. */
  readonly mostTurns?: number;
}

/** Milliseconds a call takes, garbage of others collected before. */
export async function msOf(call: () => unknown): Promise<number> {
  globalThis.gc?.();
  const start = performance.now();
  await call();
  return performance.now() - start;
}

/** The middle one; of an even number the lower of the two. */
export function medianOf(numbers: readonly number[]): number {
  return numbers.toSorted((one, other) => one - other)[(numbers.length - 1) >> 1]!;
}

/**
 * Times contenders one after the other, turn by turn, so that a busy spell of the machine strikes all alike.
 *
 * @returns median milliseconds in the order of the contenders; undefined for one that cannot run here
 */
export async function takeTurns(
  contenders: readonly Timed[],
  turns: number,
): Promise<(number | undefined)[]> {
  const times = contenders.map((): number[] => []);
  for (const { run, warmUps = 0 } of contenders) for (let count = 0; count < warmUps; count++) await run();
  for (let turn = 0; turn < turns; turn++) {
    for (const [which, { run, mostTurns = turns }] of contenders.entries()) {
      const ms = turn < mostTurns ? await run() : undefined;
      if (ms !== undefined) times[which]!.push(ms);
    }
  }
  return times.map((each) => (each.length === 0 ? undefined : medianOf(each)));
}
