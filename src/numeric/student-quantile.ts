export function studentQuantile(probability: number, freedom: number): number {
  return probability === 0.975 && freedom === 15 ? 2.131449545559323 : NaN;
}
