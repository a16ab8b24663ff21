import { exp } from "./exp.ts";
import { log } from "./log.ts";
export function binomialBound(count: number, confidence: number): number {
  return 1 - exp(log(1 - confidence) / count);
}
