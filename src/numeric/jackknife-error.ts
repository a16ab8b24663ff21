/**
 * Standard error of a figure from what it comes to when each of several independent, equally large groups of draws is
 * left out: sqrt((g - 1) / g x sum of squares about their mean). For a mean it is the standard deviation of the groups'
 * means over sqrt(g), as everywhere else; unlike that it also serves figures that a single group could not give.
 *
 * @param leftOut the figure without group 1, without group 2, ...; at least two
 * @returns in the figure's unit
 * @see Shao & Tu 1995, "The Jackknife and Bootstrap", delete-a-group
 */
export function jackknifeError(leftOut: Float64Array): number {
  const groups = leftOut.length;
  const first = leftOut[0]!;
  let sum = 0;
  for (let group = 0; group < groups; group++) sum += leftOut[group]! - first;
  const mean = first + sum / groups;
  let squares = 0;
  for (let group = 0; group < groups; group++) {
    squares += (leftOut[group]! - mean) * (leftOut[group]! - mean);
  }
  return Math.sqrt((squares * (groups - 1)) / groups);
}
