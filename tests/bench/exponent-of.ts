/**
 * The power with which y grows in x: slope of log y over log x by least squares; 1 is linear growth.
 *
 * @param points pairs of x and y, both above 0, at least two x that differ
 */
export function exponentOf(points: readonly (readonly [x: number, y: number])[]): number {
  const logs = points.map(([x, y]) => [Math.log(x), Math.log(y)] as const);
  const meanX = logs.reduce((sum, [x]) => sum + x, 0) / logs.length;
  const meanY = logs.reduce((sum, [, y]) => sum + y, 0) / logs.length;
  const above = logs.reduce((sum, [x, y]) => sum + (x - meanX) * (y - meanY), 0);
  return above / logs.reduce((sum, [x]) => sum + (x - meanX) ** 2, 0);
}
