/** What a client prefers of how its request is answered. */
export interface Preferences {
  /** It would rather have a job at once than wait for the result. */
  readonly respondAsync: boolean;
  /** Seconds it would wait for the result, at most `longestWaitSeconds`; undefined when it does not say. */
  readonly waitSeconds: number | undefined;
}

/** Seconds that a request is held open at most because its client would wait. */
export const longestWaitSeconds = 60;

const token = "[!#$%&'*+.^_`|~0-9A-Za-z-]+";
const word = `(${token}|"(?:[^"\\\\]|\\\\.)*")?`;
const parameter = `(?:${token}(?:[ \\t]*=[ \\t]*${word})?)?`;
// Source of the grammar: RFC 7240, section 2 (a value that is empty is as good as none).
const onePreference = new RegExp(
  `[ \\t]*(?:(${token})(?:[ \\t]*=[ \\t]*${word})?(?:[ \\t]*;[ \\t]*${parameter})*)?[ \\t]*(?:,|$)`,
  "y",
);

/**
 * Reads a Prefer header. What is not known or cannot be read is left out, and of what is said twice the
 * first counts, as the standard wants.
 */
export function parsePreferences(header = ""): Preferences {
  const found = new Map<string, string>();
  onePreference.lastIndex = 0;
  while (onePreference.lastIndex < header.length) {
    const [, name, value = ""] = onePreference.exec(header) ?? [];
    // Nothing matched: there is no telling where the next preference would begin.
    if (onePreference.lastIndex === 0) break;
    const key = name?.toLowerCase();
    if (key !== undefined && !found.has(key)) found.set(key, value.replace(/^"(.*)"$/, "$1"));
  }
  const wait = found.get("wait") ?? "";
  return {
    respondAsync: found.get("respond-async") === "",
    waitSeconds: /^\d+$/.test(wait) ? Math.min(Number(wait), longestWaitSeconds) : undefined,
  };
}
