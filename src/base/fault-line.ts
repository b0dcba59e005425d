/**
 * What a fault says of itself, in one line.
 *
 * @param fault What was thrown; anything can be.
 */
export function faultLine(fault: unknown): string {
  const text = fault instanceof Error ? `${fault.name}: ${fault.message}` : String(fault);
  return text.replaceAll(/\s+/gu, " ").slice(0, 300);
}
