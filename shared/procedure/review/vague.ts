/** Words that leave the reader to decide. */

/** Ask for a look, and need to say what at: the next words must hold a criterion. */
const looking = /\b(?:check|ensure|verify|confirm|make (?:sure|certain)|validate|inspect|see to it)\b/iu
/** What makes a criterion: a clause that says it, a figure, code, quoted words, a name for what to compare with. */
const criterion =
  /\b(?:that|whether|if|against|by|until|where|which|how|shows?|says?|reads?)\b|[:\d\ufffc"“⁅]/iu

const words = [
  'properly',
  'correctly',
  'appropriate(?:ly)?',
  'adequate(?:ly)?',
  'sufficient(?:ly)?',
  'enough',
  'suitabl[ey]',
  'reasonabl[ey]',
  'acceptable',
  'satisfactory',
  '(?:as|if|where|when) (?:necessary|needed|required|appropriate|applicable|possible|desired)',
  'several',
  'various',
  'a few',
  'a couple of',
  'some (?!other\\b)(?:of )?\\p{Ll}+',
  'etc\\.?',
  'and so (?:on|forth)',
  'a (?:short |little )?while',
  'soon',
  'shortly',
  'periodically',
  'regularly',
  'occasionally',
  'frequently',
  'from time to time',
  'carefully',
  'with care',
  'slowly',
  'gently',
  'quickly',
  'normally',
  'approximately',
  'roughly',
  'as usual',
  'as expected',
  '(?:is|are|be|looks?|seems?) (?:correct|right|fine|good|ok|okay|normal|well)',
  '(?:it|everything|all|this|that) works?',
  'successfully',
  'and/or',
]
const vague = new RegExp(`(?<![\\p{L}-])(?:${words.join('|')})(?![\\p{L}-])`, 'giu')

export interface VagueWords {
  readonly start: number
  readonly end: number
  readonly is: 'word' | 'no criterion'
}

/** @param hasCriterion whether something beside the sentence says what to see */
export function vagueWordsIn(sentence: string, hasCriterion: boolean): VagueWords[] {
  const found = Array.from(sentence.matchAll(vague), (match) => ({
    start: match.index,
    end: match.index + match[0].length,
    is: 'word' as const,
  }))
  const look = looking.exec(sentence)
  if (!look || hasCriterion || found.length > 0 || !isAsked(sentence.slice(0, look.index))) return found
  const behind = look.index + look[0].length
  if (criterion.test(sentence.slice(behind))) return found
  return [...found, { start: look.index, end: behind, is: 'no criterion' }]
}

/** Whether the word asks the reader: at the head, behind a comma or another order. “The command checks” and “the check” do not. */
const isAsked = (before: string): boolean =>
  /(?:^|[,;:]\s|\b(?:must|should|shall|will|to|and|then|now|next|please|always|also)\s)[\s*_"“(]*$/iu.test(
    before,
  )
