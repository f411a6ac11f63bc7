/**
 * Mutation: for each rule its fault is planted at every place of the sample's procedures where it can apply. The rule must speak
 * up there, and no other than those that it declares.
 */
import { beforeAll, describe, expect, it } from 'vitest'
import { openingOf } from '../../../../../shared/procedure/review/english.ts'
import { reviewProcedure, rules } from '../../../../../shared/procedure/review/review.ts'
import type { RuleId } from '../../../../../shared/procedure/review/rule.ts'
import type { Finding, ReviewedDocument, ReviewedRow } from '../../../../../shared/procedure/review/types.ts'
import { sampleReviewed, type SampleReviewed } from '../../../../support/sampleReviewed.ts'
import {
  beforeEachCommand,
  behindFirstSentence,
  changedTexts,
  has,
  inEachPart,
  inEachRow,
  withDo,
  withFirstLine,
  withLine,
  withoutPart,
  withPart,
  type Changed,
  type Planted,
} from './planting.ts'

/** Read by hand: the steps whose commands change something, and those before which nothing is copied. */
const read: Readonly<Record<string, { changing: readonly number[]; uncopied: readonly number[] }>> = {
  'Move the root file system from a card to a disk': {
    changing: [3, 4, 5, 6, 7, 9, 10, 11],
    uncopied: [1, 2, 3],
  },
  'Serve time to a closed network': {
    changing: [1, 2, 3, 4, 5, 7, 8],
    uncopied: [1, 2, 3, 4, 5, 6, 7, 8, 9, 10],
  },
  // curl in step 11 writes a file, if only /dev/null.
  'Put a service behind the proxy, with a certificate of our own': {
    changing: [1, 2, 3, 5, 6, 7, 8, 9, 10, 11],
    uncopied: [1, 2, 3, 4, 5],
  },
}

const LONG =
  'The lamp on the wall by the door of the dome is on at night and off by day, and so are the one on the path, the one at the gate and the one on the roof.'
const HARD = [
  'Organizational interoperability necessitates administrative standardization.',
  'Institutional accountability presupposes comprehensive documentation.',
  'Operational sustainability incorporates technological diversification.',
  'Environmental responsibility encompasses multidisciplinary considerations.',
].join(' ')
const DESTROY = 'rm -rf /srv/old-readings'
const cautioned = (row: ReviewedRow): ReviewedRow =>
  has(row, 'caution') ? row : withPart(row, 'caution', '**Notice:** The old readings are lost.')
const expected = (row: ReviewedRow): ReviewedRow =>
  has(row, 'expect') ? row : withPart(row, 'expect', 'It prints nothing.')
const hostOf = (row: ReviewedRow): string | null => row.place?.host ?? null
const isIn = (numbers: readonly number[], row: ReviewedRow): boolean => numbers.includes(Number(row.number))

type Plant = (procedure: SampleReviewed) => Planted[]
const sentence =
  (words: string, kinds: Parameters<typeof inEachPart>[1]): Plant =>
  ({ document }) =>
    inEachPart(document, kinds, (text) => behindFirstSentence(text, words))
/** What the sample's parts may hold commands in; an answer belongs into “expect”, and a caution holds none. */
const runnable = ['do', 'done already', 'if it fails', 'why', 'how to undo'] as const
const ANSWER = ' 02:14:07 up 3 days,  1:12,  1 user,  load average: 0.10, 0.08, 0.02'
const prose = ['do', 'expect', 'done already', 'if it fails', 'how to undo'] as const

const plants: Readonly<Record<RuleId, readonly Plant[]>> = {
  'one action': [
    sentence('Then open the outer door.', ['do']),
    sentence('Open the door, close the gate and start the fan.', ['do']),
  ],
  'plain verb': [
    ({ document }) => inEachPart(document, ['do'], (text) => `The door must be opened. ${text}`),
    ({ document }) => inEachPart(document, ['do'], (text) => `Opening the door. ${text}`),
    ({ document }) =>
      inEachPart(document, ['do'], (text) => {
        const { at, word } = openingOf(text)
        return `${text.slice(0, at)}${at === 0 ? 'Initiate' : 'initiate'}${text.slice(at + word.length)}`
      }),
  ],
  'vague words': [
    sentence('This takes a while.', prose),
    sentence('It is done properly.', prose),
    ({ document }) =>
      inEachRow(document, (row) =>
        has(row, 'expect')
          ? []
          : [withDo(row, (text) => behindFirstSentence(text, 'The crew must check the oil.'))],
      ),
  ],
  'condition first': [
    sentence('Skip this if the door is open.', ['do', 'if it fails', 'how to undo']),
    sentence('Leave it alone unless the lamp is on.', ['do', 'if it fails', 'how to undo']),
  ],
  'long sentence': [sentence(LONG, 'all')],
  'hard to read': [
    ({ document }) =>
      inEachPart(document, 'all', (text) => `${behindFirstSentence(text, HARD)}\n\n${HARD}\n\n${HARD}`),
  ],
  'undefined abbreviation': [sentence('The XQZ is on.', 'all')],
  'caution with action': [
    sentence('Disconnect the cable.', ['caution']),
    ({ document }) =>
      inEachRow(document, (row) =>
        has(row, 'caution')
          ? []
          : [withPart(row, 'caution', '**Warning:** The rail is live. Pull the plug.')],
      ),
  ],
  'late caution': [
    ({ document }) =>
      inEachPart(
        document,
        ['do', 'expect', 'if it fails', 'why'],
        (text) => `${text}\n\n**Warning:** The rail is live.`,
      ),
    ({ document }) =>
      inEachRow(document, (row) =>
        has(row, 'caution')
          ? []
          : [withPart(row, 'caution', '**Notice:** The previous command lost the old table.')],
      ),
    sentence('The command above has lost the old table.', ['caution']),
  ],
  'undefined parameter': [
    sentence('The name is ⁅lost-name⁆.', 'all'),
    ({ document }) => inEachPart(document, ['do'], (text) => withLine(text, 'echo ⁅lost-name⁆')),
  ],
  'unused parameter': [
    ({ document }) => [
      {
        document: { ...document, parameters: [{ id: document.rows[0]!.id as never, name: 'spare' }] },
        steps: [null],
      },
    ],
  ],
  'literal value': [
    sentence('The name is that of this house; put your own.', 'all'),
    ({ document }) =>
      document.rows.slice(1).map((row, at) => {
        const line = (one: ReviewedRow): ReviewedRow =>
          withDo(one, (text) => withLine(text, 'ping -c 1 203.0.113.99'))
        const before = document.rows[at]!
        const rows = document.rows.with(at, line(before)).with(at + 1, line(row))
        return { document: { ...document, rows }, steps: [before.id] }
      }),
  ],
  'lost reference': [
    sentence('See [step 4](step:01920000-0000-7000-8000-000000000000).', 'all'),
    sentence('See step 99.', 'all'),
  ],
  'destructive without caution': [
    ({ document }) =>
      inEachRow(document, (row) =>
        has(row, 'caution') ? [] : [expected(withDo(row, (text) => withLine(text, DESTROY)))],
      ),
  ],
  'destructive without back-up': [
    ({ title, document }) =>
      inEachRow(document, (row) =>
        isIn(read[title]!.uncopied, row)
          ? [expected(cautioned(withDo(row, (text) => withLine(text, DESTROY))))]
          : [],
      ),
  ],
  'no expect': [
    ({ title, document }) =>
      inEachRow(document, (row) => (isIn(read[title]!.changing, row) ? [withoutPart(row, 'expect')] : [])),
  ],
  'no undo': [
    ({ title, document }) => {
      const steps = document.rows.filter((row) => isIn(read[title]!.changing, row)).map(({ id }) => id)
      const parts = document.parts.filter(({ kind }) => kind !== 'how to undo')
      return [{ document: { ...document, parts }, steps }]
    },
    ({ title, document }) => {
      const parts = document.parts.filter(({ kind }) => kind !== 'how to undo')
      const rows = document.rows.map((row) => withPart(row, 'undo', 'Put the old file back.'))
      const known = { ...document, parts, rows }
      return inEachRow(known, (row) => (isIn(read[title]!.changing, row) ? [withoutPart(row, 'undo')] : []))
    },
  ],
  'no evidence': [
    ({ document }) =>
      inEachRow(document, (row) =>
        row.parts.every(({ olderEnds }) => olderEnds === 0)
          ? []
          : [{ ...row, parts: row.parts.map((part) => ({ ...part, olderEnds: 0 })) }],
      ),
  ],
  'refused command': [
    ({ document }) =>
      inEachPart(document, ['do', 'if it fails'], (text) =>
        text.includes('```sh') ? withLine(text, 'echo "the readings') : null,
      ),
    ({ document }) => inEachPart(document, runnable, (text) => withLine(text, 'fi')),
  ],
  'sudo as root': [
    ({ document }) =>
      inEachRow(document, (row) =>
        // Where the place says root, sudo is a fault before anything; elsewhere before what needs root.
        beforeEachCommand(
          row,
          document,
          (text) => /^(?:systemctl|mount|umount|sed -i|mkfs)/u.test(text),
          'sudo ',
        ),
      ),
  ],
  'pasted prompt': [
    ...['$ ', 'root@desk:~# ', 'ada@desk:/srv$ '].map(
      (prompt): Plant =>
        ({ document }) =>
          inEachPart(document, ['do', 'if it fails'], (text) => withFirstLine(text, (line) => prompt + line)),
    ),
    ({ document }) => inEachPart(document, runnable, (text) => withLine(text, '$ uptime')),
    ({ document }) =>
      inEachPart(document, runnable, (text) => withLine(text, `$ uptime\n${ANSWER}`)).map((planted) => ({
        ...planted,
        words: ANSWER,
      })),
  ],
  'silent place': [
    ...['cd /srv/elsewhere', 'su - weather', 'ssh roof', 'docker exec -it store bash'].map(
      (line): Plant =>
        ({ document }) =>
          inEachRow(document, (row, next) =>
            !next || next.isPlaceSaid ? [] : [withDo(row, (text) => withLine(text, line))],
          ),
    ),
  ],
  'service rebuilt': [
    ({ document }) =>
      document.rows.flatMap((row, at) =>
        document.rows.slice(at + 1).flatMap((later, behind): Planted[] => {
          if (hostOf(row) !== hostOf(later)) return []
          const down = expected(withDo(row, (text) => withLine(text, 'systemctl stop docker')))
          const needs = withDo(later, (text) => withLine(text, 'docker ps'))
          const rows = document.rows.with(at, down).with(at + 1 + behind, needs)
          return [{ document: { ...document, rows }, steps: [later.id] }]
        }),
      ),
  ],
}

/** A row without evidence is pointed at by its first words, which a planted fault may change. */
const keyOf = ({ rule, step, words }: Finding): string =>
  JSON.stringify([rule, step, rule === 'no evidence' ? '' : words])

/** What is found beyond what was found before, each as `rule at step`. */
function newIn(before: ReviewedDocument, planted: ReviewedDocument): Finding[] {
  const known = new Set(reviewProcedure(before).map(keyOf))
  return reviewProcedure(planted).filter((finding) => !known.has(keyOf(finding)))
}

const pointsAt = ({ part, range }: Finding, texts: readonly Changed[]): boolean =>
  texts.some(
    (one) => one.part.id === part && (range === null || (range.start <= one.to && range.end >= one.from)),
  )

describe('a planted fault', () => {
  let procedures: SampleReviewed[]
  beforeAll(async () => {
    procedures = await sampleReviewed()
  })

  it.each(rules)(
    'is found by the rule “$id” at every place, and by no other that it does not declare',
    (rule) => {
      let places = 0
      for (const procedure of procedures)
        for (const plant of plants[rule.id])
          for (const { document, steps, words } of plant(procedure)) {
            places += 1
            const found = newIn(procedure.document, document)
            const own = found.filter((one) => one.rule === rule.id)
            const others = found.filter(
              (one) => one.rule !== rule.id && !rule.declares.includes(one.rule as RuleId),
            )
            const where = `${procedure.title}, ${steps.map((id) => document.rows.find((row) => row.id === id)?.number ?? 'all').join()}`
            expect(
              others.map(({ rule: id, words }) => `${id}: ${words}`),
              where,
            ).toEqual([])
            expect(new Set(own.map(({ step }) => step)), where).toEqual(new Set(steps))
            if (words !== undefined) expect(own.map((one) => one.words)).toContain(words)
            // At each of these, words that were planted or that stand at them are pointed at.
            const changed = changedTexts(procedure.document, document)
            for (const step of steps) {
              const texts = changed.filter((one) => one.step === step)
              if (texts.length > 0)
                expect(
                  own.filter((one) => one.step === step && pointsAt(one, texts)),
                  where,
                ).not.toEqual([])
            }
          }
      if (process.env.SHOW_FIGURES) console.log(`${rule.id}: ${places} places`)
      expect(places).toBeGreaterThanOrEqual(procedures.length)
    },
  )
})
