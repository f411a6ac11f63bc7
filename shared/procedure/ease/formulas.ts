/** Formulas of reading ease, with the constants as published. All take counts greater than zero. */

/** Flesch 1948, “A new readability yardstick”. 100 is very easy, 0 very hard. */
export function fleschReadingEase(counts: { sentences: number; words: number; syllables: number }): number {
  return 206.835 - 1.015 * (counts.words / counts.sentences) - 84.6 * (counts.syllables / counts.words)
}

/** Kincaid, Fishburne, Rogers and Chissom 1975 (Research Branch Report 8-75): years of school in the United States. */
export function fleschKincaidGrade(counts: { sentences: number; words: number; syllables: number }): number {
  return 0.39 * (counts.words / counts.sentences) + 11.8 * (counts.syllables / counts.words) - 15.59
}

/** Gunning 1952, “The technique of clear writing”. */
export function gunningFog(counts: { sentences: number; words: number; complexWords: number }): number {
  return 0.4 * (counts.words / counts.sentences + 100 * (counts.complexWords / counts.words))
}

/** McLaughlin 1969, “SMOG grading”, the exact form; made for 30 sentences. */
export function smog(counts: { sentences: number; polysyllables: number }): number {
  return 3.1291 + 1.043 * Math.sqrt(counts.polysyllables * (30 / counts.sentences))
}

/** Coleman and Liau 1975: letters and sentences for each 100 words. */
export function colemanLiau(counts: { sentences: number; words: number; letters: number }): number {
  return (
    0.0588 * (100 * (counts.letters / counts.words)) -
    0.296 * (100 * (counts.sentences / counts.words)) -
    15.8
  )
}

/** Smith and Senter 1967, “Automated readability index”. */
export function automatedReadability(counts: {
  sentences: number
  words: number
  characters: number
}): number {
  return 4.71 * (counts.characters / counts.words) + 0.5 * (counts.words / counts.sentences) - 21.43
}
