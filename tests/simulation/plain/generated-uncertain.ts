import type { Distribution, Uncertain } from "../../../src/domain/uncertain.ts";
import type { Dice } from "./generated-dice.ts";

const toHundredths = (value: number) => Math.round(value * 100) / 100;

/** Sixteenths that sum to exactly 1, `count` of them, some perhaps 0. */
export function sixteenths(dice: Dice, count: number): number[] {
  const shares = Array.from({ length: count }, () => 0);
  for (let left = 16; left > 0; left -= 1) {
    const index = dice.whole(0, count - 1);
    shares[index]! += 1 / 16;
  }
  return shares;
}

/** Some different multiples of a sixteenth of `scale`, in no order. */
function steps(dice: Dice, scale: number, lowest: number): number[] {
  const multiples = Array.from({ length: dice.whole(1, 4) }, () => dice.whole(lowest, 16));
  return [...new Set(multiples)].map((multiple) => (multiple * scale) / 16);
}

/** A few values on a coarse grid, so that sums and times tie. */
function stepped(dice: Dice, scale: number, lowest: number): Uncertain {
  const values = steps(dice, scale, lowest);
  if (dice.chance(0.6)) return values[0]!;
  if (dice.chance(0.5)) return { kind: "sample", values };
  const shares = sixteenths(dice, values.length);
  return {
    kind: "discrete",
    outcomes: values.map((value, index) => ({ value, probability: shares[index]! })),
  };
}

type Maker = (dice: Dice, low: number, middle: number, high: number) => Distribution;

const threePoint = (kind: "triangular" | "pert"): Maker => {
  return (dice, low, mode, high) => ({
    kind,
    low,
    mode,
    high,
    ...(dice.chance(0.3) ? { covers: dice.pick([0.8, 0.7, 1]) } : {}),
    ...(kind === "pert" && dice.chance(0.2) ? { weight: dice.pick([2, 6]) } : {}),
  });
};

/** Distributions that stay above 0 when low is. */
const positiveMakers: Maker[] = [
  (_dice, low, _middle, high) => ({ kind: "uniform", low, high }),
  (_dice, low, mode, high) => ({ kind: "triangular", low, mode, high }),
  (_dice, low, mode, high) => ({ kind: "pert", low, mode, high }),
  (_dice, p10, p50, p90) => ({ kind: "percentiles", p10, p50, p90 }),
  (_dice, p10, _middle, p90) => ({ kind: "lognormal", p10, p90 }),
  (_dice, low, mean) => ({ kind: "lognormal", mean, sd: low }),
  (_dice, low, middle, high) => ({ kind: "sample", values: [middle, low, high] }),
];

/** Distributions of costs, times, rates and shares: a few reach below 0, where they count as 0. */
const amountMakers: Maker[] = [
  ...positiveMakers,
  threePoint("triangular"),
  threePoint("pert"),
  (_dice, p10, p50, p90) => ({ kind: "percentiles", p10, p50, p90, floor: p10 / 2 }),
  (_dice, low, mean) => ({ kind: "normal", mean, sd: low * 2 }),
  (_dice, low, mean) => ({ kind: "normal", mean, sd: low * 2, atLeast: low / 2 }),
  (_dice, low, middle) => ({
    kind: "log-student",
    location: toHundredths(Math.log(middle)),
    scale: toHundredths(low / middle),
    freedom: 5,
  }),
  (_dice, _low, mean) => ({ kind: "exponential", mean }),
  (dice, low, middle, high) => ({
    kind: "sample",
    values: [high, low, middle],
    weights: [1, dice.whole(1, 4), 2],
  }),
  (dice, low, middle, high) => {
    const shares = sixteenths(dice, 4);
    const values = [middle, 0, high, low];
    return {
      kind: "discrete",
      outcomes: values.map((value, index) => ({ value, probability: shares[index]! })),
    };
  },
];

function threeValues(dice: Dice, scale: number): [number, number, number] {
  const low = Math.max(0.01, toHundredths(scale * (0.1 + 0.4 * dice.unit())));
  const middle = toHundredths(low + scale * (0.05 + 0.3 * dice.unit()) + 0.01);
  return [low, middle, toHundredths(middle + scale * (0.05 + 0.6 * dice.unit()) + 0.01)];
}

/** Whether a document's figures lie on a coarse grid (and tie) or anywhere. */
export type Style = "stepped" | "smooth";

/** A cost, time, rate or share of about this scale. */
export function amountAbout(dice: Dice, style: Style, scale: number): Uncertain {
  if (style === "stepped") return stepped(dice, scale, 0);
  const values = threeValues(dice, scale);
  return dice.chance(0.2) ? values[1] : dice.pick(amountMakers)(dice, ...values);
}

/** A quantity that is above 0 in every draw. */
export function positiveAbout(dice: Dice, style: Style, scale: number): Uncertain {
  if (style === "stepped")
    return dice.pick([scale, scale / 2, { kind: "sample", values: [scale, scale / 2] }]);
  const values = threeValues(dice, scale);
  return dice.chance(0.2) ? values[1] : dice.pick(positiveMakers)(dice, ...values);
}

/** An effect on the value, often negative. */
export function effectAbout(dice: Dice, style: Style, scale: number): Uncertain {
  if (style === "stepped") return stepped(dice, scale, -16);
  const [low, middle, high] = threeValues(dice, scale);
  return dice.pick<Uncertain>([
    -middle,
    middle,
    { kind: "uniform", low: -high, high: low },
    { kind: "triangular", low: -high, mode: -low, high: middle },
    { kind: "percentiles", floor: -2 * high, p10: -high, p50: -low, p90: middle },
    { kind: "normal", mean: -low, sd: middle },
    { kind: "sample", values: [low, -high] },
    {
      kind: "discrete",
      outcomes: [
        { value: -high, probability: 0.25 },
        { value: 0, probability: 0.75 },
      ],
    },
  ]);
}
