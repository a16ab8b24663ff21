/** Means and sums of squared deviations of stretches of a column and of the whole: the whole is the last of each. */
export interface StretchMoments {
  /** Length stretches + 1. */
  readonly means: Float64Array;
  /** About the stretch's own mean; length stretches + 1. */
  readonly squares: Float64Array;
}

/**
 * Takes the means and squared deviations of stretches of a column, in a fixed order of summation; the whole is put
 * together from the stretches.
 *
 * @param values every stretch after the other
 * @param starts where each stretch begins, and the number of values; no stretch is empty
 */
export function stretchMoments(values: Float64Array, starts: Int32Array): StretchMoments {
  const stretches = starts.length - 1;
  const means = stretchMeans(values, starts);
  const squares = new Float64Array(stretches + 1);
  const mean = means[stretches]!;
  let sum = 0;
  for (let stretch = 0; stretch < stretches; stretch++) {
    const from = starts[stretch]!;
    const to = starts[stretch + 1]!;
    const own = means[stretch]!;
    squares[stretch] = squaresAbout(own, values, from, to);
    sum += squares[stretch]! + (to - from) * (own - mean) * (own - mean);
  }
  squares[stretches] = sum;
  return { means, squares };
}

/**
 * The means of stretches of a column, and of the whole.
 *
 * @param values every stretch after the other
 * @param starts where each stretch begins, and the number of values; no stretch is empty
 * @returns length stretches + 1, the mean of all values last
 */
export function stretchMeans(values: Float64Array, starts: Int32Array): Float64Array {
  const stretches = starts.length - 1;
  const means = new Float64Array(stretches + 1);
  // About the first value: exact where all are equal, and where they differ little beside their size.
  const centre = values[0]!;
  let total = 0;
  for (let stretch = 0; stretch < stretches; stretch++) {
    const from = starts[stretch]!;
    const to = starts[stretch + 1]!;
    const sum = sumAbout(centre, values, from, to);
    means[stretch] = centre + sum / (to - from);
    total += sum;
  }
  means[stretches] = centre + total / starts[stretches]!;
  return means;
}

/** Four sums side by side, because an addition takes longer than it takes to begin the next. */
function sumAbout(centre: number, values: Float64Array, from: number, to: number): number {
  let a = 0;
  let b = 0;
  let c = 0;
  let d = 0;
  let index = from;
  for (; index + 3 < to; index += 4) {
    a += values[index]! - centre;
    b += values[index + 1]! - centre;
    c += values[index + 2]! - centre;
    d += values[index + 3]! - centre;
  }
  for (; index < to; index++) a += values[index]! - centre;
  return a + b + (c + d);
}

function squaresAbout(mean: number, values: Float64Array, from: number, to: number): number {
  let sum = 0;
  for (let index = from; index < to; index++) {
    const deviation = values[index]! - mean;
    sum += deviation * deviation;
  }
  return sum;
}
