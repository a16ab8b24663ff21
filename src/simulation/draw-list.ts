/** Some draws of the chunk at hand. */
export interface DrawList {
  /** Positions in the chunk, the first `count` of them. */
  readonly draws: Int32Array;
  count: number;
  /** True for the list of every draw in order, which needs no looking up. */
  readonly isWhole: boolean;
}

/** Lists to be taken one after the other and given back all at once. */
export interface ListPool {
  readonly lists: DrawList[];
  readonly capacity: number;
  taken: number;
}

/**
 * Makes a list of every draw in order.
 *
 * @param capacity most draws of a chunk
 */
export function wholeList(capacity: number): DrawList {
  return { draws: Int32Array.from({ length: capacity }, (_, draw) => draw), count: 0, isWhole: true };
}

/** Makes a pool of lists that hold up to `capacity` draws each. */
export function makeListPool(capacity: number): ListPool {
  return { lists: [], capacity, taken: 0 };
}

/** Takes an empty list. */
export function takeList(pool: ListPool): DrawList {
  const list = (pool.lists[pool.taken] ??= {
    draws: new Int32Array(pool.capacity),
    count: 0,
    isWhole: false,
  });
  pool.taken += 1;
  list.count = 0;
  return list;
}

/** Adds the draws of one list to another. */
export function addAll(to: DrawList, from: DrawList): void {
  to.draws.set(from.draws.subarray(0, from.count), to.count);
  to.count += from.count;
}

/**
 * Parts the draws of a list by a flag of each.
 *
 * @param flags by draw
 * @param wanted the flag that leads to `matching`
 */
export function partList(
  list: DrawList,
  flags: Uint8Array,
  wanted: number,
  matching: DrawList,
  others: DrawList,
): void {
  const { draws, count } = list;
  let in_ = matching.count;
  let out = others.count;
  for (let place = 0; place < count; place++) {
    const draw = draws[place]!;
    if (flags[draw] === wanted) matching.draws[in_++] = draw;
    else others.draws[out++] = draw;
  }
  matching.count = in_;
  others.count = out;
}
