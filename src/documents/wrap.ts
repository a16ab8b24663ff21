/** Columns of a plain terminal. */
export const terminalColumns = 80;

/**
 * Breaks a sentence at its spaces into lines that fit a plain terminal; a longer word is cut.
 *
 * @param indent stands before every line but the first
 */
export function wrap(text: string, indent = ""): string[] {
  const lines: string[] = [];
  let line = "";
  const room = () => terminalColumns - (lines.length === 0 ? 0 : indent.length);
  const push = (full: string) => lines.push((lines.length === 0 ? "" : indent) + full);
  for (let word of text.split(" ")) {
    if (line !== "" && line.length + 1 + word.length > room()) {
      push(line);
      line = "";
    }
    for (; word.length > room(); word = word.slice(room())) push(word.slice(0, room()));
    line = line === "" ? word : `${line} ${word}`;
  }
  push(line);
  return lines;
}
