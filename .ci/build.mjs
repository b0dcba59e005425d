// npm run build [app] [cli] [library]: builds all parts into dist/, or the ones named.
import { ensureBuilt, ensurePackages } from "./ready.mjs";

const parts = ["app", "cli", "library"];
const named = process.argv.slice(2).filter((name) => parts.includes(name));
ensurePackages();
process.exitCode = ensureBuilt(named.length > 0 ? named : parts, { force: true }) ? 0 : 1;
