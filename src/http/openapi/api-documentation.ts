import { readFile } from "node:fs/promises";
import swagger from "@fastify/swagger";
import swaggerUi from "@fastify/swagger-ui";
import type { FastifyInstance } from "fastify";
import { jsonSchemaTransform, jsonSchemaTransformObject } from "fastify-type-provider-zod";
import type { Described } from "../route-schema.ts";
import { mergeTwins } from "./merge-twins.ts";
import { optionalBodies } from "./optional-bodies.ts";

const info = {
  title: "Restoration Reckoner",
  version: "1",
  description:
    "What restoring an old motorcycle, scooter or car will cost, as ranges; what it will be worth; and what to do about it.\n\n" +
    "Every failing answer is problem details (RFC 9457) with a list of faults, each with a JSON Pointer, the value and the rule. " +
    "What can be changed has a strong entity tag, and a change needs it as If-Match. Unknown fields and parameters are refused. " +
    "Where an object of a body has one field twice, only the last counts.",
  license: { name: "MIT", identifier: "MIT" },
};

const tags = [
  { name: "simulations", description: "A document in, a result out, nothing kept." },
  { name: "projects", description: "A project is its document, with every earlier revision of it." },
  { name: "documents", description: "The document of a project, whole." },
  { name: "estimates", description: "Results that are kept for ever, and can be computed again." },
  { name: "jobs", description: "Simulations that run apart from the request that asked for them." },
  { name: "health", description: "For whoever watches the service." },
];

/** Describes the API from the schemas of its routes, and shows that at /docs without any other server. */
export async function addApiDocumentation(app: FastifyInstance): Promise<void> {
  await app.register(swagger, {
    openapi: { openapi: "3.1.0", info, tags, servers: [{ url: "/", description: "This service." }] },
    transform: withHeaders,
    transformObject: (document) => optionalBodies(mergeTwins(jsonSchemaTransformObject(document))),
  });
  const content = await readFile(new URL("../pages/icon.svg", import.meta.url));
  const icon = { filename: "icon.svg", rel: "icon", type: "image/svg+xml", sizes: "any", content };
  await app.register(swaggerUi, {
    routePrefix: "/docs",
    theme: { title: "Restoration Reckoner: the API", favicon: [icon] },
    uiConfig: { layout: "BaseLayout", deepLinking: true, tryItOutEnabled: false },
    // Its icons are data: addresses in its own stylesheet.
    transformStaticCSP: (policy) => `${policy};img-src 'self' data:`,
  });
}

/** The generator leaves out the headers a route declares for its answers. */
const withHeaders: typeof jsonSchemaTransform = (route) => {
  const transformed = jsonSchemaTransform(route);
  const declared = (route.schema.response ?? {}) as Record<string, Partial<Described>>;
  const answers = (transformed.schema.response ?? {}) as Record<string, object>;
  const response = Object.entries(answers).map(([status, answer]) => {
    const headers = declared[status]?.headers;
    return [status, headers ? { ...answer, headers } : answer] as const;
  });
  return { ...transformed, schema: { ...transformed.schema, response: Object.fromEntries(response) } };
};
