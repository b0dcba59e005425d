type Given<Values> = { readonly [Key in keyof Values]?: Exclude<Values[Key], undefined> };

/** The values that are there: an optional member is left out, not set to undefined. */
export function given<Values extends object>(values: Values): Given<Values> {
  return Object.fromEntries(Object.entries(values).filter(([, value]) => value !== undefined)) as Given<Values>;
}
