import { exp } from "../numeric/exp.ts";
import { log } from "../numeric/log.ts";
import { normalCdf } from "../numeric/normal-cdf.ts";
import type { Uncertain } from "./uncertain.ts";
export function uncertainQuantile(u: Uncertain): (z: number) => number {
  if (typeof u === "number") return () => u;
  const z90 = 1.2815515655446004;
  if (u.kind === "uniform") return (z) => u.low + (u.high - u.low) * normalCdf(z);
  if (u.kind === "percentiles") {
    const f = u.floor ?? 0,
      m = log(u.p50 - f),
      s1 = (m - log(u.p10 - f)) / z90,
      s2 = (log(u.p90 - f) - m) / z90;
    return (z) => f + exp(m + (z < 0 ? s1 : s2) * z);
  }
  if (u.kind === "exponential") return (z) => -u.mean * log(normalCdf(-z));
  if (u.kind === "triangular" || u.kind === "pert")
    return (z) => {
      const p = normalCdf(z),
        a = u.low,
        b = u.high,
        m = u.mode,
        w = b - a;
      if (w === 0) return a;
      return p < (m - a) / w ? a + Math.sqrt(p * w * (m - a)) : b - Math.sqrt((1 - p) * w * (b - m));
    };
  if (u.kind === "lognormal" && "p10" in u) {
    const m = (log(u.p10) + log(u.p90)) / 2,
      s = (log(u.p90) - log(u.p10)) / 2 / z90;
    return (z) => exp(m + s * z);
  }
  if (u.kind === "lognormal") {
    const s2 = log(1 + (u.sd / u.mean) * (u.sd / u.mean));
    const m = log(u.mean) - s2 / 2,
      s = Math.sqrt(s2);
    return (z) => exp(m + s * z);
  }
  if (u.kind === "log-student") return (z) => exp(u.location + u.scale * Math.max(-3.09, Math.min(3.09, z)));
  throw new Error(u.kind);
}
