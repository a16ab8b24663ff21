import { setTimeout as sleep } from "node:timers/promises";

const longestMs = 30_000;

/** Asks again and again until there is an answer. */
export async function until<T>(
  what: string,
  ask: () => Promise<T | undefined | false>,
  mostMs = longestMs,
): Promise<T> {
  const deadline = Date.now() + mostMs;
  for (;;) {
    const answer = await ask();
    if (answer !== undefined && answer !== false) return answer;
    if (Date.now() > deadline) throw new Error(`${what}: not within ${mostMs} ms`);
    await sleep(20);
  }
}
