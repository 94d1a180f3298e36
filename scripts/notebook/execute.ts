import { spawn } from "node:child_process";
import { existsSync, mkdirSync, writeFileSync } from "node:fs";
import { join, resolve } from "node:path";
import type { Notebook } from "./notebook.ts";

const debianNbconvert = "/usr/bin/jupyter-nbconvert";

/**
 * Writes the kernel that the deno package ships to .cache/jupyter/kernels/deno, and gives the environment in which Jupyter
 * finds it. deno's own installer would write into the user's home.
 */
export function kernelEnvironment(root: string): NodeJS.ProcessEnv {
  const jupyter = resolve(root, ".cache/jupyter");
  const folder = join(jupyter, "kernels/deno");
  mkdirSync(folder, { recursive: true });
  const argv = [process.execPath, resolve(root, "node_modules/deno/bin.cjs"), "jupyter", "--kernel", "--conn", "{connection_file}"];
  writeFileSync(join(folder, "kernel.json"), `${JSON.stringify({ argv, display_name: "Deno", language: "typescript" }, null, 1)}\n`);
  return {
    ...process.env,
    JUPYTER_PATH: jupyter,
    JUPYTER_CONFIG_DIR: join(jupyter, "config"),
    JUPYTER_RUNTIME_DIR: join(jupyter, "runtime"),
    IPYTHONDIR: join(jupyter, "ipython"),
    DENO_DIR: resolve(root, ".cache/deno"),
    DENO_NO_UPDATE_CHECK: "1",
    NO_COLOR: "1",
  };
}

/** Runs every cell of a notebook in a fresh kernel. @throws Error with Jupyter's words when a cell fails. */
export async function executeNotebook(root: string, path: string): Promise<Notebook> {
  const command = existsSync(debianNbconvert) ? debianNbconvert : "jupyter-nbconvert";
  const child = spawn(command, ["--to", "notebook", "--execute", "--stdout", "--ExecutePreprocessor.timeout=600", "--ExecutePreprocessor.startup_timeout=180", resolve(root, path)], { cwd: root, env: kernelEnvironment(root), stdio: ["ignore", "pipe", "pipe"] });
  const out: Buffer[] = [];
  const said: Buffer[] = [];
  child.stdout.on("data", (part: Buffer) => out.push(part));
  child.stderr.on("data", (part: Buffer) => said.push(part));
  const code = await new Promise<number | null>((done, failed) => {
    child.on("error", failed);
    child.on("close", done);
  });
  if (code !== 0) throw new Error(`${path}: ${command} ended with ${code}\n${Buffer.concat(said).toString("utf8").slice(-4000)}`);
  return JSON.parse(Buffer.concat(out).toString("utf8")) as Notebook;
}
