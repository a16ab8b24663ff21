/** What rounding may leave of a sum of squares less the square of the sum, where nothing varies: as a share of the former. */
export const roundingShare = 1e-12;
