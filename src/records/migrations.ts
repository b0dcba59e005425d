/** A change of the record form from one version to the next; it may rely on nothing but plain data. */
export interface RecordMigration {
  /** What changed, as a short name. */
  readonly name: string;
  readonly from: number;
  readonly to: number;
  readonly migrate: (record: Readonly<Record<string, unknown>>) => Record<string, unknown>;
}

/** All migrations of the job record, oldest first. Version 1 is the first, so there are none yet. */
export const recordMigrations: readonly RecordMigration[] = [];

/**
 * Carries a record of an older version to the newest one, step by step.
 *
 * @param record Parsed data with a numeric `version`; it is not changed.
 * @param migrations The steps, oldest first, each from one version to the next.
 * @returns The record at the version after the last step that applied.
 */
export function migrateRecord(
  record: Readonly<Record<string, unknown>>,
  migrations: readonly RecordMigration[],
): Readonly<Record<string, unknown>> {
  let current = record;
  for (const step of migrations) {
    if (current["version"] === step.from) current = { ...step.migrate(current), version: step.to };
  }
  return current;
}
