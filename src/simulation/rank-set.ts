/** A set of small integers, a bit each, from which the smallest is taken quickly. */
export interface RankSet {
  size: number;
  readonly words: Uint32Array;
}

/**
 * Makes an empty set.
 *
 * @param count members are in [0, count)
 */
export function makeRankSet(count: number): RankSet {
  return { size: 0, words: new Uint32Array((count >> 5) + 1) };
}

/** Adds a member that is not in the set. */
export function addRank(set: RankSet, rank: number): void {
  set.words[rank >> 5] = set.words[rank >> 5]! | (1 << (rank & 31));
  set.size += 1;
}

/**
 * Takes the smallest member out of a set that is not empty.
 *
 * @returns it
 */
export function takeSmallest(set: RankSet): number {
  const { words } = set;
  let word = 0;
  while (words[word] === 0) word += 1;
  const bits = words[word]!;
  const lowest = bits & -bits;
  words[word] = bits ^ lowest;
  set.size -= 1;
  return word * 32 + (31 - Math.clz32(lowest));
}
