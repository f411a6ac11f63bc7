/** The lab's own words: what its machines and tags are called, and what its sources say again and again. */

/** A word of sources counts once it was seen so often. */
export const LEAST_SEEN = 3

const word = /\p{L}[\p{L}\d]*(?:['’]\p{L}+)?/gu

/** Every word of a name: `weather-logger` has two, and `gate.example.org` three. */
export function wordsOfName(name: string): string[] {
  return name.match(word) ?? []
}

/** Counts the words of texts, each under the form in which it was written. */
export class WordCount {
  private readonly seen = new Map<string, number>()

  add(text: string): void {
    for (const [one] of text.matchAll(word)) {
      if (one.length < 3 || one.length > 40) continue
      this.seen.set(one, (this.seen.get(one) ?? 0) + 1)
    }
  }

  /** The words that were seen at least so often. */
  often(least = LEAST_SEEN): string[] {
    return [...this.seen].filter(([, times]) => times >= least).map(([one]) => one)
  }
}
