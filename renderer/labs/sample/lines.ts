/** Joins lines into a text, so that recorded outputs stand in the sample line by line. */
export function lines(...all: readonly string[]): string {
  return all.join('\n')
}
