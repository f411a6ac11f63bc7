/** Words as they are compared when something is looked for: without regard to case and accents. */

/** Text without accents, in lower case. The lower case of a sigma depends on what follows, so its two forms are made one. */
export function foldText(text: string): string {
  return text
    .normalize('NFKD')
    .replace(/\p{Mark}/gu, '')
    .toLowerCase()
    .replace(/ς/gu, 'σ')
}

/** The folded words of what was typed to look for something; each of them must be found. */
export function toWantedWords(typed: string): readonly string[] {
  return foldText(typed)
    .split(/\s+/u)
    .filter((word) => word !== '')
}
