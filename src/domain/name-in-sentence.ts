/**
 * A name as it reads within a sentence: its capital falls where it only began the name, as in "Front fender"; not where
 * more capitals follow ("CDI unit") or where it is a name of its own.
 *
 * @param name as the document gives it
 * @param keeps first words that keep their capital, such as the make and the model
 */
export function nameInSentence(name: string, keeps: readonly string[] = []): string {
  const first = name.slice(0, 1);
  const isWord = !/^.[\p{Lu}\p{N}]/u.test(name);
  const isKept = keeps.some((kept) => kept !== "" && name.startsWith(kept));
  return isWord && !isKept ? first.toLowerCase() + name.slice(1) : name;
}
