/** The digests of the golden corpus and the version of the engine that gave them; fixtures/digests.json. */
export interface FrozenDigests {
  readonly engine: string;
  readonly digests: Readonly<Record<string, string>>;
}

/**
 * Runs whose digest is another, or gone, though the engine's version is the same: what must not be frozen.
 *
 * @param before as frozen, if anything was
 * @param now as the engine gives them
 */
export function changedUnderOneVersion(before: FrozenDigests | undefined, now: FrozenDigests): string[] {
  if (before?.engine !== now.engine) return [];
  return Object.keys(before.digests).filter((run) => now.digests[run] !== before.digests[run]);
}
