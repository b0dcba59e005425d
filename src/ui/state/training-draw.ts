import { MOST_NUMBER } from "../../application/index.ts";

/** The number of an exercise that nobody chose: any of them, by chance. */
export function drawNumber(): number {
  const [drawn = 0] = crypto.getRandomValues(new Uint32Array(1));
  return drawn % (MOST_NUMBER + 1);
}
