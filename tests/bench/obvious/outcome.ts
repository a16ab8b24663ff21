/** What one draw came to. */
export interface Outcome {
  toGo: number;
  cash: number;
  withOwnHours: number;
  carrying: number;
  allIn: number;
  ownHours: number;
  shopHours: number;
  shareOfPrice: number;
  finished: number;
  proceeds: number;
  gap: number;
  gapWithOwnHours: number;
  lines: number[];
  suppliers: { cash: number; departures: number }[];
  /** By part: the route on the machine. */
  routes: (string | undefined)[];
}
