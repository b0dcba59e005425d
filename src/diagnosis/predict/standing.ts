/** Where the machine stands while readings are taken. */
export interface Standing {
  readonly state: string;
  /** Connectors that are unplugged, in natural order. */
  readonly unplugged: readonly string[];
}
