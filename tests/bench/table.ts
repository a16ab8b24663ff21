/** What a figure should be. */
export type Target = { atMost: number } | { atLeast: number } | { about: number; within: number };

const columns = [62, 10, 6, 12] as const;

/** Prints the head of the table. */
export function printHead(): void {
  const heads = ["".padEnd(columns[0]), "measured".padStart(columns[1]), " ".repeat(columns[2]), "target"];
  console.log(heads.join(""));
}

/** Prints a line of the table; without a figure it heads the lines that follow. */
export function printRow(what: string, figure?: number, unit = "", target?: Target): void {
  const cells = [
    what.padEnd(columns[0]),
    figure === undefined ? "" : digits(figure).padStart(columns[1]),
    ` ${unit}`.padEnd(columns[2]),
    (target === undefined ? "" : wanted(target)).padEnd(columns[3]),
    target === undefined || figure === undefined ? "" : verdict(figure, target),
  ];
  console.log(figure === undefined ? what : cells.join("").trimEnd());
}

function digits(figure: number): string {
  return figure.toFixed(figure < 10 ? 2 : figure < 1_000 ? 1 : 0);
}

function wanted(target: Target): string {
  if ("atMost" in target) return `<= ${target.atMost}`;
  return "atLeast" in target ? `>= ${target.atLeast}` : `${target.about} +- ${target.within}`;
}

/** Whether a figure is what it should be, and by what it is not. */
export function verdict(figure: number, target: Target): string {
  if ("about" in target) {
    const beyond = Math.abs(figure - target.about) - target.within;
    return beyond <= 0 ? "met" : `missed by ${beyond.toFixed(2)}`;
  }
  const factor = "atMost" in target ? figure / target.atMost : target.atLeast / figure;
  return factor <= 1 ? "met" : `missed by ${factor.toFixed(2)} x`;
}
