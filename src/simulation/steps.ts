/** What a chain does next. */
export const stepKind = { wait: 0, until: 1, owner: 2, visit: 3 } as const;

/**
 * The steps of one draw's chains, in struct-of-arrays form: chain c holds steps [chainStart[c], chainStart[c + 1]).
 * `weeks` is the length of a wait, the week of an until, the owner's working time of an owner step; `lead` the weeks
 * after the work or after the departure is back. Steps list the items they hold in [workStart[s], workStart[s + 1]) of
 * `works`, and those of a precedence in [itemStart[s], itemStart[s + 1]) of `items`.
 */
export interface Steps {
  count: number;
  kind: Uint8Array;
  weeks: Float64Array;
  lead: Float64Array;
  /** Owner step: its item. Visit: the departure's index. */
  target: Int32Array;
  itemStart: Int32Array;
  items: Int32Array;
  itemCount: number;
  workStart: Int32Array;
  works: Int32Array;
  workCount: number;
  chains: number;
  chainStart: Int32Array;
}

/**
 * Makes an empty buffer of steps.
 *
 * @param chains most chains a draw has
 */
export function makeSteps(chains: number): Steps {
  const capacity = 256;
  return {
    count: 0,
    kind: new Uint8Array(capacity),
    weeks: new Float64Array(capacity),
    lead: new Float64Array(capacity),
    target: new Int32Array(capacity),
    itemStart: new Int32Array(capacity + 1),
    items: new Int32Array(capacity),
    itemCount: 0,
    workStart: new Int32Array(capacity + 1),
    works: new Int32Array(capacity),
    workCount: 0,
    chains: 0,
    chainStart: new Int32Array(chains + 1),
  };
}

/** Forgets all steps. */
export function clearSteps(steps: Steps): void {
  steps.count = 0;
  steps.itemCount = 0;
  steps.workCount = 0;
  steps.chains = 0;
}

/** Begins the next chain. */
export function beginChain(steps: Steps): void {
  steps.chainStart[steps.chains] = steps.count;
  steps.chains += 1;
  steps.chainStart[steps.chains] = steps.count;
}

/** Adds a step to the chain begun last. */
export function addStep(steps: Steps, kind: number, weeks: number, lead: number, target: number): void {
  if (steps.count === steps.kind.length) grow(steps);
  const step = steps.count;
  steps.kind[step] = kind;
  steps.weeks[step] = weeks;
  steps.lead[step] = lead;
  steps.target[step] = target;
  steps.count = step + 1;
  steps.itemStart[step] = steps.itemCount;
  steps.itemStart[step + 1] = steps.itemCount;
  steps.workStart[step] = steps.workCount;
  steps.workStart[step + 1] = steps.workCount;
  steps.chainStart[steps.chains] = steps.count;
}

/** Adds time of its own to the step added last. */
export function lengthenStep(steps: Steps, weeks: number, lead: number): void {
  const step = steps.count - 1;
  steps.weeks[step] = steps.weeks[step]! + weeks;
  steps.lead[step] = steps.lead[step]! + lead;
}

/** Notes that the step added last holds an item that others wait for or that waits for others. */
export function addItem(steps: Steps, item: number): void {
  if (steps.itemCount === steps.items.length) steps.items = grown(steps.items, steps.itemCount * 2);
  steps.items[steps.itemCount] = item;
  steps.itemCount += 1;
  steps.itemStart[steps.count] = steps.itemCount;
}

/** Notes an operation that is done in the step added last. */
export function addWork(steps: Steps, item: number): void {
  if (steps.workCount === steps.works.length) steps.works = grown(steps.works, steps.workCount * 2);
  steps.works[steps.workCount] = item;
  steps.workCount += 1;
  steps.workStart[steps.count] = steps.workCount;
}

/** True when the step added last belongs to the chain begun last, is of this kind and holds no items. */
export function lastIsPlain(steps: Steps, kind: number): boolean {
  const step = steps.count - 1;
  return (
    step >= steps.chainStart[steps.chains - 1]! &&
    steps.kind[step] === kind &&
    steps.itemStart[step] === steps.itemCount
  );
}

function grow(steps: Steps): void {
  const size = steps.kind.length * 2;
  const kind = new Uint8Array(size);
  kind.set(steps.kind);
  steps.kind = kind;
  steps.weeks = grownDoubles(steps.weeks, size);
  steps.lead = grownDoubles(steps.lead, size);
  steps.target = grown(steps.target, size);
  steps.itemStart = grown(steps.itemStart, size + 1);
  steps.workStart = grown(steps.workStart, size + 1);
}

function grown(from: Int32Array, size: number): Int32Array {
  const to = new Int32Array(size);
  to.set(from);
  return to;
}

function grownDoubles(from: Float64Array, size: number): Float64Array {
  const to = new Float64Array(size);
  to.set(from);
  return to;
}
