/** Columns that are read together lie side by side, six to a draw: adding up over scattered draws then reads one place. */
export const rowStride = 6;

/**
 * Lays six columns side by side.
 *
 * @param columns of equal length
 * @returns draw x column
 */
export function layRows(columns: readonly Float64Array[]): Float64Array {
  const rows = new Float64Array(columns[0]!.length * rowStride);
  columns.forEach((column, at) => {
    for (let draw = 0; draw < column.length; draw++) rows[draw * rowStride + at] = column[draw]!;
  });
  return rows;
}
