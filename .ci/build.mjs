// npm run build [app] [cli]: builds both parts into dist/, or the ones named.
import { ensureBuilt, ensurePackages } from "./ready.mjs";

const named = process.argv.slice(2).filter((name) => name === "app" || name === "cli");
ensurePackages();
process.exitCode = ensureBuilt(named.length > 0 ? named : ["app", "cli"], { force: true }) ? 0 : 1;
