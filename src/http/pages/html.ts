/** Text that is markup already. */
export interface Html {
  readonly markup: string;
}

type Piece = string | number | Html | readonly Html[] | undefined;

/** Builds markup: whatever is put in is escaped unless it is markup itself. */
export function html(fixed: TemplateStringsArray, ...pieces: readonly Piece[]): Html {
  return { markup: fixed.reduce((before, text, place) => before + written(pieces[place - 1]) + text) };
}

function written(piece: Piece): string {
  if (piece === undefined) return "";
  if (typeof piece === "string" || typeof piece === "number") return escaped(String(piece));
  return [piece]
    .flat()
    .map(({ markup }) => markup)
    .join("");
}

const entities: Readonly<Record<string, string>> = {
  "&": "&amp;",
  "<": "&lt;",
  ">": "&gt;",
  '"': "&quot;",
  "'": "&#39;",
};

function escaped(text: string): string {
  return text.replace(/[&<>"']/g, (character) => entities[character] ?? character);
}
