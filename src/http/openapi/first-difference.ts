const shownLines = 10;

/**
 * Says where two texts first differ.
 *
 * @returns the lines from there on, those kept with - and those wanted with +; undefined when they are the same
 */
export function firstDifference(kept: string, wanted: string): string | undefined {
  if (kept === wanted) return undefined;
  const [was, is] = [kept.split("\n"), wanted.split("\n")];
  let line = 0;
  while (line < was.length && was[line] === is[line]) line += 1;
  const excerpt = (sign: string, lines: string[]) =>
    lines.slice(line, line + shownLines).map((text) => `${sign} ${text}`);
  return [`line ${line + 1}:`, ...excerpt("-", was), ...excerpt("+", is)].join("\n");
}
