import type { TestPointsAnswer } from "../../application/index.ts";

/** A place to measure, as the answer gives it. */
export type TestPoint = TestPointsAnswer["points"][number];
