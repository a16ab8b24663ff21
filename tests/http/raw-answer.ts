import type { Server } from "node:http";
import { connect } from "node:net";
import type { AddressInfo } from "node:net";

/** Sends bytes to a listening server as they are. @returns all it answers until it closes the connection */
export function rawAnswer(server: Server, bytes: string): Promise<string> {
  return new Promise((resolve, reject) => {
    const { port } = server.address() as AddressInfo;
    const socket = connect(port, "127.0.0.1", () => socket.write(bytes));
    let answer = "";
    socket.on("data", (data) => (answer += data.toString()));
    socket.on("end", () => resolve(answer));
    socket.on("error", reject);
  });
}
