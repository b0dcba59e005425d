// Where things are, told once for every configuration in this folder.
import { fileURLToPath } from "node:url";
import { join } from "node:path";

/** Top folder of the repository. */
export const root = fileURLToPath(new URL("..", import.meta.url)).replace(/[\\/]$/, "");

/** Everything that can be thrown away and made again. */
export const cacheFolder = join(root, "node_modules", ".cache");

/** `ohmward/<room>` is the door of a room, as in tsconfig.json. */
export const roomAliases = [{ find: /^ohmward\/([a-z-]+)$/, replacement: `${root}/src/$1/index.ts` }];
