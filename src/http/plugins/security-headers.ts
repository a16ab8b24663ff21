import helmet from "@fastify/helmet";
import type { FastifyInstance } from "fastify";

/** Everything a page needs comes from this service, and nothing is inline. Plain http stays plain http. */
export async function addSecurityHeaders(app: FastifyInstance): Promise<void> {
  await app.register(helmet, {
    contentSecurityPolicy: {
      useDefaults: false,
      directives: {
        defaultSrc: ["'self'"],
        baseUri: ["'none'"],
        formAction: ["'self'"],
        frameAncestors: ["'none'"],
        objectSrc: ["'none'"],
        upgradeInsecureRequests: null,
      },
    },
    // Told once, a browser would refuse plain http to every other service on this host name too.
    strictTransportSecurity: false,
    referrerPolicy: { policy: "same-origin" },
  });
}
