/** Rules about the words. */
import type { Range } from '../../../lab/model.ts'
import { longSentences } from '../../ease/sentences.ts'
import { readingEase } from '../../ease/ease.ts'
import { abbreviationsIn, isDefinedIn } from '../abbreviations.ts'
import { actionsIn, maybeLateCondition, openingOf, plainerVerbs } from '../english.ts'
import {
  faultAt,
  isInstructing,
  partOf,
  rangeOf,
  type ReadPart,
  type Reading,
  type ReadRow,
  type Sentence,
} from '../reading.ts'
import { once } from '../once.ts'
import { handbook, remembered, type Rule } from '../rule.ts'
import type { FaultPlace, Mend, ReviewedPart } from '../types.ts'
import { vagueWordsIn } from '../vague.ts'

const longIn = once(({ text }: ReviewedPart) => longSentences(text))
const easeOf = once(({ text }: ReviewedPart) => readingEase(text))
const openingIn = once(({ text }: Sentence) => openingOf(text))
const joinedActions = once(({ text }: Sentence) => actionsIn(text))
const lateConditionIn = once(({ text }: Sentence) => maybeLateCondition(text))

const oneAction: Rule = {
  id: 'one action',
  name: 'One action for each step',
  why: 'Of two actions in one step, the second is easily passed over, and nobody can say how far they got.',
  source: handbook('Red Hat modular documentation, Procedure modules: “each step describes one action”'),
  declares: [],
  find: ({ rows }) =>
    rows.flatMap((row) => {
      const read = partOf(row, 'do')
      if (!read) return []
      const actions = read.sentences.flatMap((sentence) => actionsOf(sentence))
      const [first, second] = actions
      if (!first || !second) return []
      const range = { start: first.place, end: rangeOf(actions.at(-1)!.sentence).end }
      return [faultAt(row, read.part, range, `This step has ${actions.length} actions: ${verbsOf(actions)}.`)]
    }),
}

function actionsOf(sentence: Sentence) {
  const { isConditional } = openingIn(sentence)
  // What is done only in some case is no further action of the step: it has a condition of its own.
  const actions = isConditional && !sentence.isFirst ? [] : joinedActions(sentence)
  return actions.map(({ at, verb }) => ({ verb, sentence, place: rangeOf(sentence, at, at + 1).start }))
}

const verbsOf = (actions: readonly { readonly verb: string }[]): string =>
  actions.map(({ verb }) => `“${verb}”`).join(', ')

const plainVerb: Rule = {
  id: 'plain verb',
  name: 'A step starts with a plain verb',
  why: 'A verb at the head says at once what to do, and leaves no doubt who does it.',
  source: handbook('Red Hat modular documentation, Procedure modules; plainlanguage.gov, Use active voice'),
  declares: [],
  find: ({ rows }) =>
    rows.flatMap((row) => {
      const read = partOf(row, 'do')
      const first = read?.sentences[0]
      return read && first ? verbFaults(row, read, first) : []
    }),
}

function verbFaults(row: ReadRow, { part }: ReadPart, sentence: Sentence): FaultPlace[] {
  const { at, word, is } = openingIn(sentence)
  const isPolite = /^please\b/iu.test(sentence.text)
  if (is === 'verb' || is === 'unknown') return []
  if (word === '') return []
  const range = rangeOf(sentence, at, at + word.length)
  if (is === 'no verb') {
    const mend = isPolite ? withoutPlease(part.id, sentence) : null
    return [faultAt(row, part, range, `It begins with “${word}”, not with what to do.`, mend)]
  }
  const plain = plainerVerbs[word.toLowerCase()]!
  const insert = /^\p{Lu}/u.test(word) ? plain[0]!.toUpperCase() + plain.slice(1) : plain
  const mend = editMend(`Write “${insert}”`, { part: part.id, ...range, insert })
  return [faultAt(row, part, range, `“${word}” is a long word for “${plain}”.`, mend)]
}

function withoutPlease(part: ReadPart['part']['id'], sentence: Sentence): Mend | null {
  const lead = /^please,?\s+(\p{L})/iu.exec(sentence.text)
  if (!lead) return null
  const range = rangeOf(sentence, 0, lead[0].length)
  return editMend('Leave “please” out', { part, ...range, insert: lead[1]!.toUpperCase() })
}

const editMend = (label: string, edit: { part: ReadPart['part']['id']; insert: string } & Range): Mend => ({
  does: 'edit',
  label,
  edits: [edit],
})

/** Parts in which a word that decides nothing leaves the reader alone. */
const deciding = new Set([
  'do',
  'expect',
  'condition',
  'done already',
  'if it fails',
  'hold',
  'undo',
  'closing checks',
  'how to undo',
])

const vagueWords: Rule = {
  id: 'vague words',
  name: 'No vague words',
  why: 'Two people decide differently what “enough” or “properly” means, and one of them is wrong.',
  source: remembered(
    'DOE-STD-1029-92, Writer’s Guide for Technical Procedures, on vague terms and on criteria',
  ),
  declares: [],
  find: ({ all }) =>
    all.flatMap(({ row, read }) => {
      if (!deciding.has(read.part.kind)) return []
      const hasCriterion = row !== null && read.part.kind === 'do' && partOf(row, 'expect') !== undefined
      return read.sentences.flatMap((sentence) =>
        vagueWordsIn(sentence.text, hasCriterion).map(({ start, end, is }) => {
          const words = sentence.text.slice(start, end)
          const says =
            is === 'word'
              ? `“${words}” leaves it to the reader.`
              : `“${words}” says not what to see. Say what must be so, or add an “expect”.`
          return faultAt(row, read.part, rangeOf(sentence, start, end), says)
        }),
      )
    }),
}

const conditionFirst: Rule = {
  id: 'condition first',
  name: 'Conditions come first',
  why: 'Who reads the action first has done it before the condition is read.',
  source: remembered(
    'DOE-STD-1029-92, conditional steps; Google developer documentation style guide, Conditions before instructions',
  ),
  declares: [],
  find: ({ all }) =>
    all
      .filter(({ read }) => isInstructing(read))
      .flatMap(({ row, read }) =>
        read.sentences.flatMap((sentence) => {
          const at = lateConditionIn(sentence)
          if (at === undefined) return []
          const range = rangeOf(sentence, at, sentence.text.length)
          return [
            faultAt(
              row,
              read.part,
              range,
              'The condition stands behind what it decides.',
              turned(read, sentence, at),
            ),
          ]
        }),
      ),
}

/** “Restart it if the file changed.” as “IF the file changed, restart it.”; null where more stands in the way. */
function turned({ part }: ReadPart, sentence: Sentence, at: number): Mend | null {
  const whole = rangeOf(sentence)
  const { at: from, isConditional } = openingIn(sentence)
  const source = part.text.slice(whole.start, whole.end)
  const cut = rangeOf(sentence, at, at + 1).start - whole.start
  const parts = /^(if|when|unless|once)\s+([^]*?)\.$/iu.exec(source.slice(cut))
  const isSimple = from === 0 && !isConditional && parts !== null && !/[,;:]/u.test(source)
  if (!isSimple) return null
  const main = source.slice(0, cut).trim()
  const insert = `${parts[1]!.toUpperCase()} ${parts[2]!}, ${main[0]!.toLowerCase()}${main.slice(1)}.`
  return editMend('Put the condition first', { part: part.id, ...whole, insert })
}

const longSentence: Rule = {
  id: 'long sentence',
  name: 'Short sentences',
  why: 'A sentence of more than 25 words must be read twice, and nobody does that with a screwdriver in hand.',
  source: remembered(
    'GOV.UK content design, Sentence length (25 words); plainlanguage.gov, Write short sentences',
  ),
  declares: ['hard to read'],
  find: ({ all }) =>
    all.flatMap(({ row, read }) =>
      read.part.kind === 'file'
        ? []
        : longIn(read.part).map(({ range, words }) =>
            faultAt(row, read.part, range, `This sentence has ${words} words.`),
          ),
    ),
}

const hardToRead: Rule = {
  id: 'hard to read',
  name: 'Prose that reads easily',
  why: 'Instructions are followed tired, in a hurry and in a second language.',
  source: remembered('R. Flesch, How to Write Plain English; MIL-M-38784B, readability of technical manuals'),
  declares: ['long sentence'],
  find: ({ all }) =>
    all.flatMap(({ row, read }) => {
      const ease = read.part.kind === 'file' ? null : easeOf(read.part)
      const [first, last] = [read.sentences[0], read.sentences.at(-1)]
      if (ease?.verdict !== 'hard' || !first || !last) return []
      return [faultAt(row, read.part, { start: rangeOf(first).start, end: rangeOf(last).end }, ease.sentence)]
    }),
}

const undefinedAbbreviation: Rule = {
  id: 'undefined abbreviation',
  name: 'Abbreviations are explained',
  why: 'A stranger does not know the letters that everyone here knows.',
  source: remembered(
    'Google developer documentation style guide, Abbreviations; RFC Editor, list of abbreviations',
  ),
  declares: [],
  find: abbreviationFaults,
}

function abbreviationFaults({ all }: Reading): FaultPlace[] {
  const prose = all.flatMap(({ read }) => read.sentences.map(({ text }) => text)).join('\n')
  const told = new Set<string>()
  return all.flatMap(({ row, read }) =>
    read.sentences.flatMap((sentence) =>
      abbreviationsIn(sentence.text).flatMap(({ start, end, word }) => {
        const bare = word.replace(/s$/u, '')
        if (told.has(bare) || isDefinedIn(prose, word)) return []
        told.add(bare)
        return [
          faultAt(row, read.part, rangeOf(sentence, start, end), `Nothing says what “${word}” stands for.`),
        ]
      }),
    ),
  )
}

export const wordingRules: readonly Rule[] = [
  oneAction,
  plainVerb,
  vagueWords,
  conditionFirst,
  longSentence,
  hardToRead,
  undefinedAbbreviation,
]
