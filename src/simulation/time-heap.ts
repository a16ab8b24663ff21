/** A binary heap of (week, owner's rank), the earliest week on top. */
export interface TimeHeap {
  size: number;
  weeks: Float64Array;
  ranks: Int32Array;
}

/**
 * Makes an empty heap.
 *
 * @param capacity most entries it holds at a time
 */
export function makeTimeHeap(capacity: number): TimeHeap {
  return { size: 0, weeks: new Float64Array(capacity + 1), ranks: new Int32Array(capacity + 1) };
}

/** Adds an entry. */
export function pushTime(heap: TimeHeap, week: number, rank: number): void {
  const { weeks, ranks } = heap;
  let hole = heap.size;
  heap.size += 1;
  while (hole > 0) {
    const parent = (hole - 1) >> 1;
    if (weeks[parent]! <= week) break;
    weeks[hole] = weeks[parent]!;
    ranks[hole] = ranks[parent]!;
    hole = parent;
  }
  weeks[hole] = week;
  ranks[hole] = rank;
}

/**
 * Takes the earliest entry off.
 *
 * @returns its rank
 */
export function popTime(heap: TimeHeap): number {
  const { weeks, ranks } = heap;
  const rank = ranks[0]!;
  heap.size -= 1;
  const week = weeks[heap.size]!;
  const moved = ranks[heap.size]!;
  let hole = 0;
  for (;;) {
    let child = 2 * hole + 1;
    if (child >= heap.size) break;
    if (child + 1 < heap.size && weeks[child + 1]! < weeks[child]!) child += 1;
    if (weeks[child]! >= week) break;
    weeks[hole] = weeks[child]!;
    ranks[hole] = ranks[child]!;
    hole = child;
  }
  weeks[hole] = week;
  ranks[hole] = moved;
  return rank;
}
