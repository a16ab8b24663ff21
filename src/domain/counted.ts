/**
 * Writes a count with what is counted, in the right number.
 *
 * @param count a whole number
 * @param one the name of one
 * @param many the name of several, where it is not `one` with an s
 */
export function counted(count: number | bigint, one: string, many = `${one}s`): string {
  return `${count} ${Number(count) === 1 ? one : many}`;
}
