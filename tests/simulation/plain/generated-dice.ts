/** A tiny repeatable generator for making up documents. */
export interface Dice {
  /** A number in [0, 1). */
  unit(): number;
  /** True with this probability. */
  chance(probability: number): boolean;
  /** A whole number in [low, high]. */
  whole(low: number, high: number): number;
  pick<T>(list: readonly T[]): T;
  /** Each entry with this probability, in order. */
  some<T>(list: readonly T[], probability: number): T[];
}

/** Dice that always fall the same way for one seed. */
export function diceOf(seed: number): Dice {
  let state = seed >>> 0;
  const unit = () => {
    state = (state + 0x9e3779b9) >>> 0;
    let bits = Math.imul(state ^ (state >>> 16), 0x85ebca6b);
    bits = Math.imul(bits ^ (bits >>> 13), 0xc2b2ae35);
    return ((bits ^ (bits >>> 16)) >>> 0) / 4294967296;
  };
  const chance = (probability: number) => unit() < probability;
  return {
    unit,
    chance,
    whole: (low, high) => low + Math.floor(unit() * (high - low + 1)),
    pick: (list) => list[Math.floor(unit() * list.length)]!,
    some: (list, probability) => list.filter(() => chance(probability)),
  };
}
