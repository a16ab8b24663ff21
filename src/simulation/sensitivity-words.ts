import type { EstimateDocument, Finding } from "../domain/estimate-document.ts";
import { nameInSentence } from "../domain/name-in-sentence.ts";
import type { Part, Route } from "../domain/part.ts";
import type { Method } from "../domain/vocabulary.ts";
import type { LineIdentity } from "./program.ts";

/** What a method is called where its cost is spoken of. */
const methodNames: Record<Method, string> = {
  reuse: "reuse",
  repair: "repair",
  replate: "replating",
  "zinc-plate": "zinc plating",
  repaint: "repainting",
  "powder-coat": "powder coating",
  "new-old-stock": "buying new old stock",
  reproduction: "buying a reproduction",
  used: "buying used",
  fabricate: "making it new",
  leave: "leaving it as it is",
};

/** What is done to a part by a method. */
const doings: Record<Method, (part: string) => string> = {
  reuse: (part) => `reusing ${part}`,
  repair: (part) => `repairing ${part}`,
  replate: (part) => `replating ${part}`,
  "zinc-plate": (part) => `zinc plating ${part}`,
  repaint: (part) => `repainting ${part}`,
  "powder-coat": (part) => `powder coating ${part}`,
  "new-old-stock": (part) => `buying ${part} as new old stock`,
  reproduction: (part) => `buying ${part} as a reproduction`,
  used: (part) => `buying ${part} used`,
  fabricate: (part) => `making ${part} new`,
  leave: (part) => `leaving ${part} as it is`,
};

const mostMethods = 3;

/** Says in words what moves an answer. */
export interface InfluenceWords {
  line(line: LineIdentity): string;
  driver(name: string): string;
  condition(part: Part): string;
  presence(finding: Finding): string;
  failure(part: Part, route: Route): string;
}

/** Words for what moves the answers of a document, made of its own names. */
export function influenceWords({ parts, vehicle }: EstimateDocument): InfluenceWords {
  const plain = (name: string) => nameInSentence(name, [vehicle.make, vehicle.model]);
  const definite = (name: string) => (/^the\b/i.test(name) ? plain(name) : `the ${plain(name)}`);
  return {
    line: ({ kind, id, name }) => {
      if (kind === "part")
        return `${plain(name)}: what ${costOf(parts.find((part) => part.id === id)!)} costs`;
      if (kind === "supplier") return `${name}: minimum charge, charges and freight`;
      return `${plain(name)}: ${kind === "finding" ? "what putting it right costs" : "what it comes to"}`;
    },
    driver: plain,
    condition: ({ name }) => `condition of ${definite(name)}`,
    presence: ({ name }) =>
      /^[\p{L} -]+ needs? /u.test(name)
        ? `whether ${definite(name)}`
        : `whether it comes to light: ${plain(name)}`,
    failure: (part, route) => {
      const isOne = part.routes.filter(({ method }) => method === route.method).length === 1;
      return `whether ${doings[route.method](definite(part.name))} fails${isOne ? "" : ` (${route.id})`}`;
    },
  };
}

/** Words for what no list of the document holds. */
export const otherWords = {
  purchase: "what comes on top of the purchase price",
  carrying: "what storage, insurance and finance come to",
  value: "what it will be worth",
  weeks: "how many weeks it takes",
} as const;

/** The ways a part may go, at most three of them. */
function costOf({ routes }: Part): string {
  const open = routes.filter(({ state }) => state !== "failed");
  const methods = [...new Set(open.map(({ method }) => methodNames[method]))];
  if (methods.length === 0 || methods.length > mostMethods) return "getting it right";
  if (methods.length === 1) return methods[0]!;
  return `${methods.slice(0, -1).join(", ")} or ${methods.at(-1)!}`;
}
