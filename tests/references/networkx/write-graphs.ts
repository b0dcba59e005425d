/** Writes graphs.json, the questions for make-reference.py. How to run it: README.md beside this file. */
import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { graphsText } from "./reference-graph.ts";

const [folder] = process.argv.slice(2);
if (folder === undefined) throw new RangeError("Cannot write graphs.json: give the folder as the first argument");
const text = graphsText();
writeFileSync(join(folder, "graphs.json"), text);
console.log(`graphs.json: ${text.length} bytes`);
