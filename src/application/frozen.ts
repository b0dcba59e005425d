export type { Frozen } from "../base/index.ts";
