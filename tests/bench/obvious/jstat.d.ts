/** The few functions of the library that are used here; it ships no types. */
declare module "jstat" {
  const jStat: {
    normal: {
      cdf(x: number, mean: number, sd: number): number;
      inv(p: number, mean: number, sd: number): number;
    };
    lognormal: { inv(p: number, mu: number, sigma: number): number };
    beta: { inv(p: number, alpha: number, beta: number): number };
    triangular: { inv(p: number, low: number, high: number, mode: number): number };
    uniform: { inv(p: number, low: number, high: number): number };
    exponential: { inv(p: number, rate: number): number };
    studentt: { inv(p: number, freedom: number): number };
  };
  export default jStat;
}
