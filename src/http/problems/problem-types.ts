/** A kind of problem: what its answers share. */
interface ProblemType {
  readonly status: number;
  readonly title: string;
  /** What it means and what to do about it. */
  readonly meaning: string;
}

/** Every kind of problem the service answers with; its `type` is /problems/ and the name here. */
export const problemTypes = {
  "malformed-request": {
    status: 400,
    title: "The request cannot be read",
    meaning: "The request line, a header or the address breaks the rules of HTTP.",
  },
  "malformed-json": {
    status: 400,
    title: "The body is not JSON",
    meaning: "The body must be one JSON text in UTF-8. The detail says where reading it stopped.",
  },
  "invalid-request": {
    status: 400,
    title: "The address or a header breaks a rule",
    meaning:
      "A path or query parameter or a header is wrong. Faults point to it as /path/NAME, /query/NAME or /headers/NAME.",
  },
  "foreign-origin": {
    status: 403,
    title: "Another site's page may not change anything here",
    meaning: "A browser says that the request comes from a page of another origin.",
  },
  "not-found": {
    status: 404,
    title: "There is nothing here",
    meaning: "No resource has this address, or it has been deleted.",
  },
  "method-not-allowed": {
    status: 405,
    title: "This resource does not take that method",
    meaning: "The Allow header lists the methods it takes.",
  },
  "precondition-failed": {
    status: 412,
    title: "The resource has changed",
    meaning:
      "No entity tag of If-Match is the current one, so somebody else wrote in between. Read it again, repeat the change on what it is now, and send its new tag.",
  },
  "body-too-large": {
    status: 413,
    title: "The body is too large",
    meaning: "A body holds at most 1 MiB (1,048,576 bytes).",
  },
  "address-too-long": {
    status: 414,
    title: "The address is too long",
    meaning: "A part of the path is longer than any id.",
  },
  "unsupported-media-type": {
    status: 415,
    title: "The body is not of a kind this takes",
    meaning: "Send the body as application/json, without a content encoding.",
  },
  "foreign-host": {
    status: 421,
    title: "This service does not answer for that host",
    meaning:
      "The Host header names neither this machine's loopback nor a host the service was set up for: a safeguard against pages that point their own name here.",
  },
  "invalid-body": {
    status: 422,
    title: "The body breaks a rule",
    meaning:
      "The body is JSON, but faults lists rules it breaks: each with the place, what stands there and the rule.",
  },
  "key-used-otherwise": {
    status: 422,
    title: "The Idempotency-Key was used for another request",
    meaning:
      "A key stands for one request, and this one has another address or body than the one first sent with it. Send a new key.",
  },
  "not-computable": {
    status: 422,
    title: "The document cannot be computed",
    meaning: "The engine refused the document or the options; the detail says why.",
  },
  "precondition-required": {
    status: 428,
    title: "If-Match is missing",
    meaning:
      "Send the entity tag that reading the resource gave as If-Match, so that nobody's change is overwritten.",
  },
  "headers-too-large": {
    status: 431,
    title: "The headers are too large",
    meaning: "Send fewer or shorter headers.",
  },
  "internal-error": {
    status: 500,
    title: "Something went wrong here",
    meaning: "The fault is the service's. Its log has the cause under the request's id.",
  },
  overloaded: {
    status: 503,
    title: "Too much to do at the moment",
    meaning: "Nothing was done. Try again after the seconds that Retry-After gives.",
  },
  "simulation-lost": {
    status: 503,
    title: "The simulation did not finish",
    meaning:
      "The thread that ran it ended, most likely for want of memory. Nothing was stored. Try again, with fewer draws if it happens twice.",
  },
  "not-ready": {
    status: 503,
    title: "Not ready",
    meaning:
      "The database or the worker threads cannot be reached. Try again after the seconds that Retry-After gives.",
  },
} as const satisfies Record<string, ProblemType>;

/** The name of a kind of problem. */
export type ProblemName = keyof typeof problemTypes;
