/** The rules of the review that can be told from one sentence. */
export const sentenceRules = [
  'one action',
  'plain verb',
  'vague words',
  'condition first',
  'caution with action',
  'long sentence',
  'undefined abbreviation',
] as const
export type SentenceRule = (typeof sentenceRules)[number]
