/** Problems of putting a harness document together from what a file says. */
export const draftProblemTexts = {
  "id-changed": {
    severity: "warning",
    message: (f: { from: string; to: string; reason: string }) => `The id "${f.from}" became "${f.to}": ${f.reason}`,
    hint: "Ids start with a letter or digit, hold letters, digits and . _ + - and are used once; rename it in the file if the new name is wrong",
  },
  "system-assumed": {
    severity: "warning",
    message: (f: { volt: number }) => `The file does not say the voltage of the system; ${f.volt} V is assumed`,
    hint: "State the nominal voltage when importing",
  },
  "layout-assumed": {
    severity: "warning",
    message: (f: { connectors: number }) =>
      `The face of ${f.connectors} connector(s) is not in the file; cavities are drawn in order of their numbers`,
    hint: "Find a cavity by the number moulded on the connector, not by its place in the drawing, until the face has been entered",
  },
  "component-assumed": {
    severity: "warning",
    message: (f: { components: number }) =>
      `${f.components} component(s) were made for connectors of which the file does not say what they belong to`,
    hint: "Name the component of each connector, and join connectors that belong to one device",
  },
  "insides-unknown": {
    severity: "warning",
    message: (f: { components: number }) =>
      `Nothing is known of the inside of ${f.components} component(s), so no circuit can be followed through them and no reading computed`,
    hint: "Enter loads, fuses, switches and sources of the components that matter",
  },
  "option-added": {
    severity: "warning",
    message: (f: { option: string }) => `Option "${f.option}" is used but not listed; it was added`,
    hint: "Check that it is an option and not a slip of the pen, and say in which builds it is fitted",
  },
  "builds-assumed": {
    severity: "warning",
    message: (f: { builds: string }) => `The file lists no builds; these were made: ${f.builds}`,
    hint: "Name the builds that exist, each with its options",
  },
  "net-kinds-missing": {
    severity: "warning",
    message: (f: { nets: number }) => `The file does not say what ${f.nets} net(s) are for`,
    hint: "Give each net its kind; until then the names of lines and parts decide what may be touched, and doubt forbids",
  },
  "text-cut": {
    severity: "warning",
    message: (f: { what: string; length: number; limit: number }) =>
      `The ${f.what} has ${f.length} characters and was cut to ${f.limit}`,
    hint: "Shorten it in the file if what was cut matters",
  },
} as const;
