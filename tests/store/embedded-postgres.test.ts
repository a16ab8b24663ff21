import { spawn } from "node:child_process";
import { once } from "node:events";
import { chmod, mkdtemp, mkdir, readFile, rm, stat, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { setTimeout as sleep } from "node:timers/promises";
import pg from "pg";
import { afterEach, beforeEach, expect, test } from "vitest";
import { accountFor } from "../../src/store/account.ts";
import { startEmbeddedPostgres } from "../../src/store/embedded-postgres.ts";
import type { EmbeddedPostgres } from "../../src/store/embedded-postgres.ts";
import { readPostmaster } from "../../src/store/postmaster.ts";
import { startHolder } from "./holder.ts";

let top: string;
let dataFolder: string;
let systemFolder: string;
beforeEach(async () => {
  top = await mkdtemp(join(tmpdir(), "restoration-embedded-"));
  await chmod(top, 0o711);
  [dataFolder, systemFolder] = [join(top, "postgres"), join(top, "system")];
});
afterEach(async () => {
  const left = await readPostmaster(dataFolder);
  if (left?.isRunning) process.kill(left.pid, "SIGQUIT");
  await rm(top, { recursive: true, force: true });
  expect(left, "no test leaves its server running").toBeUndefined();
});

const start = () => startEmbeddedPostgres({ dataFolder, systemFolder });

async function ask(server: EmbeddedPostgres, statement: string): Promise<unknown[]> {
  const client = new pg.Client(server.connection);
  await client.connect();
  return client
    .query(statement)
    .then(({ rows }) => rows as unknown[])
    .finally(() => client.end());
}

/** Kills a server as a power cut would, and waits until its children have seen it. */
async function killServer(pid: number): Promise<void> {
  process.kill(pid, "SIGKILL");
  for (let waits = 0; waits < 200 && isAlive(pid); waits++) await sleep(20);
  await sleep(300);
}

function isAlive(pid: number): boolean {
  try {
    return process.kill(pid, 0);
  } catch {
    return false;
  }
}

test("startEmbeddedPostgres() makes a database only its socket leads to, and stop() leaves no process", async () => {
  const server = await start();
  const settings = await ask(
    server,
    `select current_setting('listen_addresses') as addresses, current_setting('server_encoding') as encoding,
      (select datlocale from pg_database where datname = current_database()) as locale,
      upper('é') as upper`,
  );
  expect(settings).toEqual([{ addresses: "", encoding: "UTF8", locale: "C.UTF-8", upper: "É" }]);
  expect((await stat(server.connection.host)).mode & 0o777).toBe(0o700);
  expect(server).toMatchObject({ adopted: false, dataFolder });

  const pid = (await readPostmaster(dataFolder))?.pid ?? 0;
  expect(isAlive(pid)).toBe(true);
  await Promise.all([server.stop(), server.stop()]);
  expect(isAlive(pid)).toBe(false);
});

test("startEmbeddedPostgres() keeps the data between starts", async () => {
  const first = await start();
  await ask(first, "create table kept as select 42 as answer");
  await first.stop();
  const second = await start();
  expect(await ask(second, "select answer from kept")).toEqual([{ answer: 42 }]);
  expect(second.adopted).toBe(false);
  await second.stop();
});

test("startEmbeddedPostgres() adopts the server that a killed process left, with its data", async () => {
  const holder = await startHolder(dataFolder, systemFolder);
  expect(await holder.ask("create table kept as select 42 as answer")).toEqual([]);
  const pid = (await readPostmaster(dataFolder))?.pid;
  await holder.kill("SIGKILL");

  const server = await start();
  expect(server.adopted).toBe(true);
  expect((await readPostmaster(dataFolder))?.pid).toBe(pid);
  expect(await ask(server, "select answer from kept")).toEqual([{ answer: 42 }]);
  await server.stop();
});

test("three processes that start at once share one server, and only the last to leave stops it", async () => {
  const holders = await Promise.all([1, 2, 3].map(() => startHolder(dataFolder, systemFolder)));
  expect(holders.filter((holder) => !holder.server.adopted)).toHaveLength(1);
  // The one that started it leaves first.
  holders.sort((a, b) => Number(a.server.adopted) - Number(b.server.adopted));
  for (const [index, holder] of holders.entries()) {
    expect(await holder.ask(`create table made_by_${index} ()`)).toEqual([]);
    expect(await holder.leave()).toBe(0);
    for (const other of holders.slice(index + 1))
      expect(await other.ask("select 1 as one")).toEqual([{ one: 1 }]);
  }
  expect(await readPostmaster(dataFolder)).toBeUndefined();
});

test("processes that come and go at the same moment all get a database", async () => {
  const stay = async () => {
    const holder = await startHolder(dataFolder, systemFolder);
    const answer = await holder.ask("select 1 as one");
    return [answer, await holder.leave()];
  };
  const visits = [stay(), stay()];
  for (let visit = 0; visit < 4; visit++) {
    await visits[visit];
    visits.push(stay());
  }
  expect(await Promise.all(visits)).toEqual(visits.map(() => [[{ one: 1 }], 0]));
});

test("Ctrl-C in the terminal reaches the program and not the server", async () => {
  const holder = await startHolder(dataFolder, systemFolder);
  process.kill(-holder.pid, "SIGINT");
  await sleep(200);
  expect(await holder.ask("select 1 as one")).toEqual([{ one: 1 }]);
  expect(await readFile(`${dataFolder}.log`, "utf8")).not.toContain("shutdown request");
  expect(await holder.leave()).toBe(0);
});

test("startEmbeddedPostgres() recovers what a killed server had committed", async () => {
  const holder = await startHolder(dataFolder, systemFolder);
  await holder.ask("create table kept as select 42 as answer");
  await killServer((await readPostmaster(dataFolder))?.pid ?? 0);
  // stop() has nothing left to stop, and says nothing.
  expect(await holder.leave()).toBe(0);

  const server = await start();
  expect(server.adopted).toBe(false);
  expect(await ask(server, "select answer from kept")).toEqual([{ answer: 42 }]);
  await server.stop();
});

test("startEmbeddedPostgres() is not put off by a killed server's pid that another program has now", async () => {
  const holder = await startHolder(dataFolder, systemFolder);
  await killServer((await readPostmaster(dataFolder))?.pid ?? 0);
  await holder.leave();
  const account = await accountFor(dataFolder);
  const other = spawn("sleep", ["60"], { ...account, cwd: "/" });
  try {
    await once(other, "spawn");
    for (const file of ["postmaster.pid", ".s.PGSQL.5432.lock"].map((name) => join(dataFolder, name))) {
      const [, ...rest] = (await readFile(file, "utf8")).split("\n");
      await writeFile(file, [other.pid, ...rest].join("\n"));
    }
    const server = await start();
    expect(await ask(server, "select 1 as one")).toEqual([{ one: 1 }]);
    await server.stop();
    expect(isAlive(other.pid ?? 0)).toBe(true);
  } finally {
    other.kill("SIGKILL");
  }
});

test("startEmbeddedPostgres() says what the server said when it does not start", async () => {
  const server = await start();
  await server.stop();
  await writeFile(join(dataFolder, "postgresql.auto.conf"), "no_such_setting = 1\n");
  await expect(start()).rejects.toThrow(/did not start on .*\n(.*\n)*.*no_such_setting/);
});

test("startEmbeddedPostgres() refuses a folder that holds something else", async () => {
  await mkdir(dataFolder);
  await writeFile(join(dataFolder, "letter.txt"), "dear");
  await expect(start()).rejects.toThrow(/ENOTEMPTY|EEXIST/);
  expect(await readFile(join(dataFolder, "letter.txt"), "utf8")).toBe("dear");
});

test("a data folder with a long and odd path gets a short socket path", async () => {
  dataFolder = await oddFolder(`a, "b" 'c' $HOME ${"é".repeat(60)}`);
  const server = await start();
  expect(Buffer.byteLength(join(server.connection.host, ".s.PGSQL.5432"))).toBeLessThan(100);
  expect(await ask(server, "select 1 as one")).toEqual([{ one: 1 }]);
  await server.stop();
  await rm(server.connection.host, { recursive: true });
});

test("a data folder with an odd path holds its own socket when that is short enough", async () => {
  dataFolder = await oddFolder('a, "b" $c');
  const server = await start();
  expect(server.connection.host).toBe(dataFolder);
  expect(await ask(server, "select 1 as one")).toEqual([{ one: 1 }]);
  await server.stop();
});

async function oddFolder(name: string): Promise<string> {
  await mkdir(join(top, name));
  await chmod(join(top, name), 0o711);
  return join(top, name, "postgres");
}
