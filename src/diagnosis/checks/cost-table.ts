/** Times of the work around a check, as data. */
export interface CostTable {
  readonly origin: string;
  /** One reading once everything is ready: placing the leads, waiting, reading, writing down. */
  readonly readingMinutes: number;
  /** What a check takes beside its time, in minutes that are weighed and not counted: thinking it over, walking, turning to it. */
  readonly attentionMinutes: number;
  /** Opening a connector that has been reached before; and closing one. */
  readonly reopenMinutes: number;
  readonly closeMinutes: number;
  /** Into each sort of state. */
  readonly isolateMinutes: number;
  readonly keyMinutes: number;
  readonly crankMinutes: number;
  readonly runMinutes: number;
  /** Looking at an opened connector, along one segment, moving a stretch of harness, pulling one terminal, exchanging a part. */
  readonly lookMinutes: number;
  readonly segmentMinutes: number;
  readonly wiggleMinutes: number;
  readonly dragMinutes: number;
  readonly swapRelayMinutes: number;
  readonly swapPartMinutes: number;
  /** Trying the machine after a repair, and finding that it was not the cause. */
  readonly trialMinutes: number;
  /** Repairs by the first word of the repair group. */
  readonly repairMinutes: Readonly<Record<string, number>>;
}

/** Usual times. Access minutes come from the harness document; these are for what the document does not say. */
export const COSTS: CostTable = {
  origin: "common practice, no source",
  readingMinutes: 1,
  attentionMinutes: 2,
  reopenMinutes: 0.5,
  closeMinutes: 0.5,
  isolateMinutes: 1,
  keyMinutes: 0.5,
  crankMinutes: 1.5,
  runMinutes: 2.5,
  lookMinutes: 1,
  segmentMinutes: 3,
  wiggleMinutes: 2,
  dragMinutes: 1,
  swapRelayMinutes: 2,
  swapPartMinutes: 20,
  trialMinutes: 10,
  repairMinutes: {
    plug: 2,
    fuse: 3,
    relay: 4,
    ring: 10,
    cavities: 15,
    contact: 20,
    splice: 25,
    wire: 35,
    part: 30,
    module: 90,
  },
};

/**
 * Minutes of a repair, the trial after it included.
 *
 * @param group Name of the repair group; of two repairs joined by "and" the sum.
 */
export function repairMinutes(group: string): number {
  const usual = COSTS.repairMinutes["part"] ?? 30;
  return group
    .split(" and ")
    .reduce((sum, part) => sum + (COSTS.repairMinutes[part.split(" ")[0] ?? ""] ?? usual), COSTS.trialMinutes);
}
