/** The words that were added to a lab, from what it keeps of them. */
export function addedWords(kept: unknown): string[] {
  return Array.isArray(kept) ? kept.filter((word) => typeof word === 'string') : []
}
