import { readFileSync } from "node:fs";
import { join } from "node:path";
import type { HarnessDocument } from "ohmward/harness-model";
import { readGood } from "../../import-export/support/read-file.ts";
import { root } from "../../structure/support/project-files.ts";

/** The wire list of an invented trailer, on which nothing but wires is known. */
export function trailer(): HarnessDocument {
  const text = readFileSync(join(root, "tests/fixtures/tables/trailer-lights.csv"), "utf8");
  return readGood(text, "trailer-lights.csv").document;
}

/** Two pin tables in one, with the same signals at both: the pins of a control unit and of a tank. */
export function pins(): HarnessDocument {
  const rows = ["ECU,1,5V,VT", "ECU,2,PRESS,GN", "ECU,3,GND,BK", "ECU,4,LEVEL,WH", "TANK,A,5V,VT", "TANK,B,PRESS,GN"];
  const more = ["TANK,C,GND,BK", "TANK,D,SHIELD,", "TANK,E,N/C,", "PUMP,1,GND,BK", "PUMP,2,LEVEL,BN"];
  return readGood(["Connector,Pin,Signal,Colour", ...rows, ...more].join("\n"), "pins.csv").document;
}
