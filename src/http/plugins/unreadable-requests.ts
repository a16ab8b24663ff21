import { STATUS_CODES } from "node:http";
import type { Socket } from "node:net";
import { ProblemError } from "../problems/problem-error.ts";
import { problemBody, problemMediaType } from "../problems/problem-body.ts";
import { problemTypes } from "../problems/problem-types.ts";

/** Answers on the bare connection what Node cannot read as HTTP, and so never becomes a request. */
export function answerUnreadable(error: Error & { code?: string }, socket: Socket): void {
  if (error.code === "ECONNRESET" || !socket.writable) return void socket.destroy();
  const name = error.code === "HPE_HEADER_OVERFLOW" ? "headers-too-large" : "malformed-request";
  const { status } = problemTypes[name];
  const body = JSON.stringify(problemBody(new ProblemError(name)));
  socket.end(
    `HTTP/1.1 ${status} ${STATUS_CODES[status]}\r\ncontent-type: ${problemMediaType}\r\n` +
      `content-length: ${Buffer.byteLength(body)}\r\nconnection: close\r\n\r\n${body}`,
  );
}
