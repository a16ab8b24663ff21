import { normalQuantile } from "./normal-quantile.ts";

/** Score of the ninetieth percentile of a standard normal, 1.2816; that of the tenth is its negative. */
export const score90 = normalQuantile(0.9);
