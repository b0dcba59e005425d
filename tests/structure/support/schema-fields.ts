/**
 * Lists the fields of a JSON Schema that have no description, each as its path, such as `.wires[].id`. A field that refers to a
 * definition may have its description there.
 */
export function fieldsWithoutDescription(schema: unknown): readonly string[] {
  const bare: string[] = [];
  const visit = (value: unknown, path: string): void => {
    if (!isObject(value)) return;
    for (const [name, inner] of Object.entries(value)) {
      if (name !== "properties" || !isObject(inner)) {
        visit(
          inner,
          Array.isArray(value) || name === "anyOf" || name === "oneOf"
            ? `${path}|${name}`
            : name === "items"
              ? `${path}[]`
              : path,
        );
        continue;
      }
      for (const [field, of] of Object.entries(inner)) {
        if (!isDescribed(schema, of)) bare.push(`${path}.${field}`);
        visit(of, `${path}.${field}`);
      }
    }
  };
  visit(schema, "");
  return bare;
}

function isDescribed(root: unknown, field: unknown): boolean {
  if (!isObject(field)) return false;
  const { description, $ref } = field;
  if (typeof description === "string" && description.trim() !== "") return true;
  if (typeof $ref !== "string") return false;
  const target = $ref
    .split("/")
    .reduce<unknown>((at, step) => (step === "#" ? root : isObject(at) ? at[step] : at), root);
  return target !== field && isDescribed(root, target);
}

function isObject(value: unknown): value is Readonly<Record<string, unknown>> {
  return typeof value === "object" && value !== null;
}
