const mostCharacters = 80;
const mostLevels = 3;
const mostEntries = 20;

/**
 * Writes any value short and on one line, for a person to recognise what they wrote.
 *
 * @param value anything, however large or deep
 * @returns JSON of at most 80 characters, `…` where it was cut; NaN and Infinity by name; `nothing` for undefined
 */
export function shownValue(value: unknown): string {
  if (value === undefined) return "nothing";
  const text = [...written(value, mostLevels).replace(/[\p{Cc}\p{Cf}\u2028\u2029]/gu, escaped)];
  return text.length > mostCharacters ? `${text.slice(0, mostCharacters - 1).join("")}…` : text.join("");
}

/** A terminal obeys some of these characters, and others reorder the line. */
function escaped(character: string): string {
  return `\\u${character.codePointAt(0)!.toString(16).padStart(4, "0")}`;
}

function written(value: unknown, levels: number): string {
  if (typeof value === "string") return JSON.stringify(value.slice(0, mostCharacters));
  if (typeof value !== "object" || value === null) return String(value);
  if (Array.isArray(value)) return `[${shownEntries(value, levels, (entry) => written(entry, levels - 1))}]`;
  const field = ([key, entry]: [string, unknown]) => `${written(key, 0)}:${written(entry, levels - 1)}`;
  return `{${shownEntries(Object.entries(value), levels, field)}}`;
}

function shownEntries<T>(entries: readonly T[], levels: number, show: (entry: T) => string): string {
  if (entries.length === 0) return "";
  if (levels === 0) return "…";
  const shown = entries.slice(0, mostEntries).map(show).join(",");
  return entries.length > mostEntries ? `${shown},…` : shown;
}
