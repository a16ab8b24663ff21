import type { FastifyInstance, FastifyRequest } from "fastify";
import { ProblemError } from "../problems/problem-error.ts";

const safeMethods: ReadonlySet<string> = new Set(["GET", "HEAD", "OPTIONS"]);

/**
 * Guards a service without a login. Only hosts it was set up for are answered, so that a page whose name
 * was made to point at this machine learns nothing; and only its own pages may change anything.
 *
 * @param allowedHosts names, without ports, that the service is reached under besides loopback's
 */
export function addLocalOnly(app: FastifyInstance, allowedHosts: readonly string[]): void {
  const allowed = new Set(allowedHosts.map((host) => host.toLowerCase()));
  app.addHook("onRequest", async (request) => {
    const { host } = request.headers;
    const name = hostName(host);
    if (name === undefined || !(isLoopback(name) || allowed.has(name))) {
      throw new ProblemError(
        "foreign-host",
        `This service does not answer for the host ${host ?? "(none given)"}.`,
      );
    }
    if (!safeMethods.has(request.method) && isForeign(request)) throw new ProblemError("foreign-origin");
  });
}

function hostName(host: string | undefined): string | undefined {
  if (host === undefined || /[/?#@\\]/.test(host) || !URL.canParse(`http://${host}`)) return undefined;
  return new URL(`http://${host}`).hostname;
}

function isLoopback(name: string): boolean {
  return name === "localhost" || name === "[::1]" || /^127(\.\d{1,3}){3}$/.test(name);
}

/** Programs send neither header; a browser's page sends at least one with every change. */
function isForeign({ headers }: FastifyRequest): boolean {
  const site = headers["sec-fetch-site"];
  if (site !== undefined && site !== "same-origin" && site !== "none") return true;
  const { origin } = headers;
  return (
    origin !== undefined &&
    (!URL.canParse(origin) || new URL(origin).host !== new URL(`http://${headers.host}`).host)
  );
}
