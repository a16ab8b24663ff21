import { sampleRankCorrelation } from "simple-statistics";
import { describe, expect, test } from "vitest";
import { covariance } from "../../src/numeric/covariance.ts";
import { discreteQuantile } from "../../src/numeric/discrete-quantile.ts";
import { eventThreshold } from "../../src/numeric/event-threshold.ts";
import { exponentialQuantile } from "../../src/numeric/exponential-quantile.ts";
import { lognormalQuantile } from "../../src/numeric/lognormal-quantile.ts";
import { meanOf } from "../../src/numeric/mean-of.ts";
import { normalScaled } from "../../src/numeric/normal-scaled.ts";
import { quantilesOf } from "../../src/numeric/quantiles-of.ts";
import { sdOf } from "../../src/numeric/sd-of.ts";
import { triangularQuantile } from "../../src/numeric/triangular-quantile.ts";
import { uniformQuantile } from "../../src/numeric/uniform-quantile.ts";
import { drawScores, mixed, shareError, shareOf, sumOf, valuesAt } from "./draw.ts";
import { expectWithin } from "./expect-close.ts";

/*
 * Statistical, all with a fixed seed, against published figures: sums, products and maxima of quantities drawn through the
 * kernels a simulation uses. Tolerance: 5 standard errors of independent draws, of a mean sd / sqrt n, of a standard
 * deviation sd sqrt((kurtosis - 1) / (4 n)), of a share sqrt(p (1 - p) / n).
 */
const draws = 200_000;

function expectMean(values: Float64Array, mean: number, sd: number): void {
  expectWithin(meanOf(values, 0, values.length), mean, (5 * sd) / Math.sqrt(values.length));
}

/** @param kurtosis 3 for a normal, less for thinner tails */
function expectSd(values: Float64Array, sd: number, kurtosis = 3): void {
  expectWithin(sdOf(values, 0, values.length), sd, 5 * sd * Math.sqrt((kurtosis - 1) / (4 * values.length)));
}

/** Columns of independent scores under names of their own. */
const independentScores = (name: string, count: number) =>
  Array.from({ length: count }, (_, place) => drawScores(`${name}/${place}`, draws));

// Published: JCGM 101:2008, 9.3, mass calibration (published: mean 1.2340, u .0754, from memory; computed with SciPy: mean
// 1.23403, u .07547, shortest 95 % interval [1.0840, 1.3830]). Its ends are good to 5e-5, which shifts the share by 2e-4.
test("JCGM 101, 9.3: the mass of a weight is known as well as published", () => {
  const column = (name: string, quantile: (z: number) => number) =>
    valuesAt(quantile, drawScores(`9.3/${name}`, draws));
  const reference = column("reference", normalScaled(100_000, 0.05));
  const added = column("added", normalScaled(1.234, 0.02));
  const air = column("air", uniformQuantile(1.1, 1.3));
  const weight = column("weight", uniformQuantile(7000, 9000));
  const standard = column("standard", uniformQuantile(7950, 8050));
  const mass = reference.map(
    (value, draw) =>
      (value + added[draw]!) * (1 + (air[draw]! - 1.2) * (1 / weight[draw]! - 1 / standard[draw]!)) - 100_000,
  );
  expectMean(mass, 1.23403, 0.07547);
  expectSd(mass, 0.07547);
  const share = shareOf(mass, (value) => value >= 1.084 && value <= 1.383);
  expectWithin(share, 0.95, 5 * shareError(0.95, draws) + 2e-4);
});

// Published: JCGM 101:2008, 9.4, r = 0, in 1e-6: X1^2 + X2^2, both sd 5 (from memory: means 50 / 150 / 2551, u 50 / 112 /
// 502; exact, computed with SciPy: 50 / 150 / 2550, sd 50 / 111.803 / 502.494). Of the sum's fourth moment: a noncentral
// chi-square of 2 degrees of freedom has kurtosis at most 9.
test.each([
  [0, 50, 50],
  [10, 150, 111.803],
  [50, 2550, 502.494],
])("JCGM 101, 9.4: the power ratio at x1 = %d has mean %d and sd %d", (x1, mean, sd) => {
  const first = drawScores("9.4/1", draws);
  const second = drawScores("9.4/2", draws);
  const power = first.map((score, draw) => (x1 + 5 * score) ** 2 + (5 * second[draw]!) ** 2);
  expectMean(power, mean, sd);
  expectSd(power, sd, 9);
});

// Published: the sum of ten triangulars (10, 15, 30), computed with SciPy: mean 183.333; sd 13.437096 independent, 25.63797
// under a Gaussian copula with latent correlation .3, about 25.716 with loadings of .55, 42.491829 when all are one.
describe("the sum of ten triangulars", () => {
  const triangular = triangularQuantile(10, 15, 30);
  const shared = drawScores("ten/shared", draws);
  const own = independentScores("ten", 10);
  test.each([
    ["independent", 0, 13.437096],
    ["with latent correlation .3", Math.sqrt(0.3), 25.63797],
    ["with loadings of .55", 0.55, 25.716],
    ["all one", 1, 42.491829],
  ])("%s", (_, loading, sd) => {
    const sum = sumOf(own.map((scores) => valuesAt(triangular, mixed(loading, shared, scores))));
    expectMean(sum, 183.333, sd);
    expectSd(sum, sd);
  });
});

// Published: n equal elements with common correlation r: sqrt(1 + (n - 1) r) times the independent sd, computed.
test.each([
  [10, 0.3, 1.923538],
  [30, 0.2, 2.607681],
  [30, 0.3, 3.114482],
])(
  "the sd of %d equal elements correlated %d is %d times the independent one",
  (count, correlation, factor) => {
    const shared = drawScores("equal/shared", draws);
    const sum = sumOf(
      independentScores("equal", count).map((own) => mixed(Math.sqrt(correlation), shared, own)),
    );
    expectSd(sum, factor * Math.sqrt(count));
  },
);

// Published: Irwin-Hall: F2(.5) = .125, F3(1) = 1/6, F4(1) = 1/24, F5(1.5) = .0619791667, computed with SciPy.
test.each([
  [2, 0.5, 0.125],
  [3, 1, 1 / 6],
  [4, 1, 1 / 24],
  [5, 1.5, 0.0619791667],
])("the sum of %d uniforms is below %d with probability %d", (count, limit, probability) => {
  const uniforms = independentScores("irwin-hall", count).map((scores) =>
    valuesAt(uniformQuantile(0, 1), scores),
  );
  const share = shareOf(sumOf(uniforms), (value) => value <= limit);
  expectWithin(share, probability, 5 * shareError(probability, draws));
});

// Published: the sum of two independent lognormals, mu 0, computed with SciPy: P10, P50, P80, P90, P95.
test.each([
  [0.25, [1.616783, 2.030745, 2.35923, 2.551807, 2.722799]],
  [0.5, [1.3353, 2.118741, 2.875651, 3.377179, 3.859604]],
])("two lognormals of sigma %d have the published percentiles of their sum", (sigma, percentiles) => {
  const sum = sumOf(
    independentScores("lognormals", 2).map((scores) => valuesAt(lognormalQuantile(0, sigma), scores)),
  );
  [0.1, 0.5, 0.8, 0.9, 0.95].forEach((p, place) => {
    expectWithin(
      shareOf(sum, (value) => value <= percentiles[place]!),
      p,
      5 * shareError(p, draws),
      `P${p}:`,
    );
  });
});

// Published: event cost, probability .3, impact mean 400 and sd 120: variance p s^2 + p (1 - p) m^2, so mean 120, sd
// 194.730583, computed. Kurtosis of that mixture with a normal impact: 2.93.
test("an event that costs 400, give or take 120, with probability .3 has mean 120 and sd 194.730583", () => {
  const threshold = eventThreshold(0.3);
  const impact = valuesAt(normalScaled(400, 120), drawScores("event cost/impact", draws));
  const cost = drawScores("event cost", draws).map((score, draw) => (score > threshold ? impact[draw]! : 0));
  expectMean(cost, 120, 194.730583);
  expectSd(cost, 194.730583);
});

// Published: compound Poisson, rate 2, exponential impacts of mean 100: mean 200, variance 40 000. Its fourth central moment
// is rate * 24 * 100^4 + 3 * variance^2, a kurtosis of 6. Counts above 20 have a probability of 1e-14.
test("twice on average an impact of 100 on average has mean 200 and sd 200", () => {
  const probabilities = [Math.exp(-2)];
  for (let count = 1; count <= 20; count++) probabilities.push((probabilities[count - 1]! * 2) / count);
  const counts = drawScores("poisson", draws).map(discreteQuantile([...probabilities.keys()], probabilities));
  const impacts = independentScores("impact", 20).map((scores) => valuesAt(exponentialQuantile(100), scores));
  const total = counts.map((count, draw) => impacts.slice(0, count).reduce((sum, of) => sum + of[draw]!, 0));
  expectMean(total, 200, 200);
  expectSd(total, 200, 6);
});

// Published: Clark 1961, merge bias: the maximum of two N(0, 1) has mean .564190, sd .825645; of three mean .846284; of two
// N(10, 2) mean 11.128379. Maxima have kurtosis just above 3; 3.2 covers it.
test("the later of equal paths is later than each, as Clark has it", () => {
  const [a, b, c] = independentScores("clark", 3) as [Float64Array, Float64Array, Float64Array];
  const ofTwo = a.map((score, draw) => Math.max(score, b[draw]!));
  const ofThree = ofTwo.map((score, draw) => Math.max(score, c[draw]!));
  expectMean(ofTwo, 0.56419, 0.825645);
  expectSd(ofTwo, 0.825645, 3.2);
  expectMean(ofThree, 0.846284, 0.748);
  const late = [a, b].map((scores) => valuesAt(normalScaled(10, 2), scores)) as [Float64Array, Float64Array];
  expectMean(
    late[0].map((value, draw) => Math.max(value, late[1][draw]!)),
    11.128379,
    2 * 0.825645,
  );
});

// Published: Gaussian copula, Spearman = (6 / pi) asin(r / 2), computed. The standard error of a rank correlation is at most
// 1.1 / sqrt n, less as it grows. Ranks do not see the shape of the margins: a lognormal and a triangular.
test.each([
  [0.1, 0.095533],
  [0.3, 0.287564],
  [0.5, 0.482584],
  [0.8, 0.785939],
])("latent correlation %d gives a rank correlation of %d", (correlation, spearman) => {
  const count = 40_000;
  const first = drawScores("copula/1", count);
  const second = mixed(correlation, first, drawScores("copula/2", count));
  const ranked = sampleRankCorrelation(
    Array.from(valuesAt(lognormalQuantile(0, 1), first)),
    Array.from(valuesAt(triangularQuantile(0, 0, 1), second)),
  );
  expectWithin(ranked, spearman, (5 * 1.1) / Math.sqrt(count));
});

// Published: Kendall's tau at latent correlation .5 is 1/3 exactly: of two draws, the probability of rising together is 2/3.
test("latent correlation .5 makes two draws out of three rise together", () => {
  const first = drawScores("kendall/1", draws);
  const second = mixed(0.5, first, drawScores("kendall/2", draws));
  const pairs = draws / 2;
  const together = Array.from({ length: pairs }, (_, pair) => {
    const [a, b] = [2 * pair, 2 * pair + 1];
    return (first[a]! - first[b]!) * (second[a]! - second[b]!) > 0 ? 1 : 0;
  });
  expectWithin(
    together.reduce<number>((sum, each) => sum + each, 0) / pairs,
    2 / 3,
    5 * shareError(2 / 3, pairs),
  );
});

// Published: Owen 1997: a Latin hypercube never has more variance than independent sampling with one draw fewer. Of a sum,
// which is additive, nearly all variance goes. 40 batches of 1 000; the ratio of variances is far from 1 on any reckoning.
test("stratified draws know the mean of a sum far better than independent ones, and its P80 better", () => {
  const scatter = (sampling: "stratified" | "independent") => {
    const sum = sumOf(
      Array.from({ length: 5 }, (_, place) =>
        valuesAt(lognormalQuantile(0, 0.5), drawScores(`scatter/${place}`, 40_000, sampling)),
      ),
    );
    const batches = Array.from({ length: 40 }, (_, batch) => [batch * 1000, (batch + 1) * 1000] as const);
    const means = Float64Array.from(batches, ([start, end]) => meanOf(sum, start, end));
    const p80s = Float64Array.from(batches, ([start, end]) => quantilesOf(sum, start, end, [0.8])[0]!);
    return { mean: covariance(means, means, 0, 40), p80: covariance(p80s, p80s, 0, 40) };
  };
  const stratified = scatter("stratified");
  const independent = scatter("independent");
  expect(stratified.mean).toBeLessThan(independent.mean / 20);
  expect(stratified.p80).toBeLessThan(independent.p80);
});
