import { ascendingOrder } from "./ascending-order.ts";

/**
 * Ranks of values, from 1; equal values share the mean of the ranks they take up. Exact.
 *
 * @param values finite, any order
 * @returns ranks in the order of `values`, adding up to n (n + 1) / 2
 * @see Kendall 1945, "The treatment of ties in ranking problems"
 */
export function midRanks(values: Float64Array): Float64Array {
  const order = ascendingOrder(values);
  const ranks = new Float64Array(values.length);
  for (let start = 0, end = 0; start < order.length; start = end) {
    const value = values[order[start]!]!;
    while (end < order.length && values[order[end]!]! === value) end += 1;
    // Places start ... end - 1 have the ranks start + 1 ... end.
    const shared = (start + 1 + end) / 2;
    for (let place = start; place < end; place++) ranks[order[place]!] = shared;
  }
  return ranks;
}
