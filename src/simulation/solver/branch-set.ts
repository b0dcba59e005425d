/** Where the branches of a network run; stays the same while their values change. */
export interface BranchShape {
  readonly nodeCount: number;
  /** Per branch: its first node. */
  readonly from: Int32Array;
  /** Per branch: its second node. */
  readonly to: Int32Array;
}

/** What the branches of a network are. */
export interface BranchValues {
  /** Per branch: resistance in ohm; 0 joins its nodes, Infinity is no branch at all. */
  readonly ohm: Float64Array;
  /** Per branch: the voltage in series with it that raises its second node above its first. */
  readonly volt: Float64Array;
}
