/** A list of times of the same work, in ms. */
export interface Times {
  readonly median: number;
  readonly p95: number;
  readonly most: number;
}

/** Runs work several times and keeps the times; the result of the last run comes along so that it cannot be left out. */
export function measure<Result>(runs: number, work: (run: number) => Result): Times & { readonly last: Result } {
  const times: number[] = [];
  let last: Result | undefined;
  for (let run = 0; run < runs; run++) {
    const start = performance.now();
    last = work(run);
    times.push(performance.now() - start);
  }
  return { ...summarise(times), last: last as Result };
}

/** Median, 95th of a hundred, and longest. */
export function summarise(times: readonly number[]): Times {
  const sorted = [...times].sort((a, b) => a - b);
  const at = (share: number): number => sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? NaN;
  return { median: at(0.5), p95: at(0.95), most: at(1) };
}

/** Bytes on the heap after a collection; needs node --expose-gc. */
export function heapBytes(): number {
  globalThis.gc?.();
  return process.memoryUsage().heapUsed + process.memoryUsage().arrayBuffers;
}
