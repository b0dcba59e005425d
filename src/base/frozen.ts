/** The same data, readable only, all the way down. */
export type Frozen<Data> = Data extends readonly (infer Entry)[]
  ? readonly Frozen<Entry>[]
  : Data extends object
    ? { readonly [Key in keyof Data]: Frozen<Data[Key]> }
    : Data;
