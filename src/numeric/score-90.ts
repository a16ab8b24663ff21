import { normalQuantile } from "./normal-quantile.ts";

/** The standard normal score that 90 % lie below, 1.2816; minus it, the score that 10 % lie below. */
export const score90 = normalQuantile(0.9);
