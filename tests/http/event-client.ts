import { get } from "node:http";
import type { IncomingMessage, Server } from "node:http";
import type { AddressInfo } from "node:net";

/** One server-sent event. */
export interface ReceivedEvent {
  readonly id: number;
  readonly data: Record<string, unknown>;
}

/** A client of a stream of server-sent events, literal: it splits and joins nothing but lines. */
export interface EventClient {
  readonly response: IncomingMessage;
  /** The next event; undefined when the stream has ended. */
  next(): Promise<ReceivedEvent | undefined>;
  /** Every event until the stream ends. */
  rest(): Promise<ReceivedEvent[]>;
  /** Lines that are no part of an event. */
  readonly others: string[];
  /** Goes away without a word. */
  leave(): void;
}

export function openEvents(
  server: Server,
  path: string,
  headers: Record<string, string> = {},
): Promise<EventClient> {
  const { port } = server.address() as AddressInfo;
  return new Promise((resolve, reject) => {
    const request = get({ host: "127.0.0.1", port, path, headers, agent: false }, (response) =>
      resolve(clientOf(response)),
    );
    request.on("error", reject);
  });
}

function clientOf(response: IncomingMessage): EventClient {
  const others: string[] = [];
  const blocks = blocksOf(response);
  async function next(): Promise<ReceivedEvent | undefined> {
    for (;;) {
      const { value, done } = await blocks.next();
      if (done === true) return undefined;
      const event = eventIn(value);
      if (event !== undefined) return event;
      others.push(value);
    }
  }
  async function rest(): Promise<ReceivedEvent[]> {
    const event = await next();
    return event === undefined ? [] : [event, ...(await rest())];
  }
  return { response, next, rest, others, leave: () => void response.destroy() };
}

async function* blocksOf(response: IncomingMessage): AsyncGenerator<string, undefined> {
  let text = "";
  for await (const piece of response.setEncoding("utf8")) {
    const blocks = (text + String(piece)).split("\n\n");
    text = blocks.pop() ?? "";
    yield* blocks;
  }
  if (text !== "") throw new Error(`the stream ended within an event: ${text}`);
  return undefined;
}

function eventIn(block: string): ReceivedEvent | undefined {
  const found = /^id: (\d+)\ndata: (.*)$/.exec(block);
  if (found === null) return undefined;
  return { id: Number(found[1]), data: JSON.parse(String(found[2])) as Record<string, unknown> };
}
