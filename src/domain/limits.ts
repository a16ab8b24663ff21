/** Operations a document may hold: routes, rework and whole-machine work together. */
export const mostOperations = 2_000;
/** Parts a document may hold. */
export const mostParts = 2_000;
/** Entries of any other list in a document. */
export const mostEntries = 1_000;
/** Shared drivers a document may declare. */
export const mostDrivers = 100;
/** Values or outcomes of one empirical distribution. */
export const mostOutcomes = 1_000;
/** Fewest finds a month of a hunt: about one in 80,000 years. */
export const leastFindsPerMonth = 1e-6;
/** Fewest hours a week the owner may have, in any draw. */
export const leastHoursPerWeek = 1e-9;
/** Largest size of any draw of a distribution, in scores from -6.5 to 6.5. */
export const largestDraw = 1e15;
/** Tries of one purchase. */
export const mostTries = 20;
/** Values of the JSON, lists and objects included. */
export const mostValues = 500_000;
/** Nesting levels of the JSON, the document itself the first. */
export const deepestNesting = 32;
/** Draws of one simulation. */
export const mostDraws = 1_000_000;
/** Fewest draws of one simulation: two in each of the 16 replicates. */
export const fewestDraws = 32;
/** Draws above which only totals are kept. */
export const mostDrawsWithLines = 200_000;
/** Largest number, in currency units, hours or weeks. */
export const largestAmount = 1e9;
/** Characters in a name. */
export const longestName = 200;
/** Characters in a note. */
export const longestNote = 5_000;
/** Largest seed: every integer up to it is exact in a double. */
export const largestSeed = Number.MAX_SAFE_INTEGER;
/** Draws of one batch of an adaptive simulation, and fewest batches of it. */
export const batchDraws = 1_000;
export const fewestBatches = 8;
/** Fewest draws an adaptive simulation may be bounded by. */
export const fewestAdaptiveDraws = batchDraws * fewestBatches;
