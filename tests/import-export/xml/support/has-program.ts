import { spawnSync } from "node:child_process";

/** Whether a program is installed on this computer. */
export function hasProgram(name: string): boolean {
  return spawnSync(name, ["--version"], { stdio: "ignore" }).error === undefined;
}
