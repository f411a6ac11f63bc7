/** Rules about cautions and about what they are for. */
import { cautionFromMarkdown } from '../../../safety/signal-words/markdown.ts'
import { changesState } from '../../../shell/effects.ts'
import { openingOf } from '../english.ts'
import { once } from '../once.ts'
import {
  destroys,
  faultAt,
  partOf,
  rangeOf,
  type ReadPart,
  type Reading,
  type ReadRow,
  type Sentence,
} from '../reading.ts'
import { practice, remembered, type Rule } from '../rule.ts'
import type { FaultPlace } from '../types.ts'

/** Verbs that warn, and ask for nothing that belongs into the order of the steps. */
const warning = new Set([
  'do',
  "don't",
  'never',
  'avoid',
  'keep',
  'leave',
  'be',
  'mind',
  'beware',
  'remember',
  'note',
  'stay',
  'wear',
  'watch',
  'handle',
  'see',
  'treat',
  'expect',
  'follow',
  'let',
])

const cautionWithAction: Rule = {
  id: 'caution with action',
  name: 'A caution holds no action',
  why: 'Whoever skips cautions skips the action with it, and it has no tick.',
  source: remembered('DOE-STD-1029-92, warnings and cautions; NUREG-0899, cautions and notes'),
  declares: [],
  find: ({ rows }) =>
    rows.flatMap((row) => {
      const read = partOf(row, 'caution')
      if (!read) return []
      const avoiding = avoidanceStart(read)
      return [
        ...read.sentences
          .filter((sentence) => isAction(sentence, read, avoiding))
          .map((sentence) =>
            faultAt(
              row,
              read.part,
              actionRange(sentence),
              'This is something to do: make it a step, or say it as a way to avoid the hazard.',
            ),
          ),
        ...read.scripts.flatMap(({ commands }) =>
          commands
            .slice(0, 1)
            .map((command) =>
              faultAt(row, read.part, command, 'A caution holds no commands: make it a step of its own.'),
            ),
        ),
      ]
    }),
}

/** Where the part begins that says how to avoid the hazard; what stands there asks for care, not for a step. */
const avoidanceStart = once(({ part }: ReadPart): number => {
  const { avoidance } = cautionFromMarkdown(part.text)
  const at = avoidance === '' ? -1 : part.text.lastIndexOf(avoidance)
  return at < 0 ? Number.POSITIVE_INFINITY : at
})

const lead = /^(?:(?:danger|warning|caution|notice):\s+|(?:if not avoided|to avoid it):\s+)/iu

function isAction(sentence: Sentence, { code }: ReadPart, avoiding: number): boolean {
  const text = sentence.text.replace(lead, '')
  const { is, word } = openingOf(text)
  if (is !== 'verb' && is !== 'long word') return false
  const range = rangeOf(sentence)
  const runs = code.some(
    ({ start, end, value }) => start >= range.start && end <= range.end && changesState(value),
  )
  if (runs && !warning.has(word.toLowerCase())) return true
  return range.end <= avoiding && !warning.has(word.toLowerCase())
}

function actionRange(sentence: Sentence) {
  return rangeOf(sentence, lead.exec(sentence.text)?.[0].length ?? 0, sentence.text.length)
}

const signal =
  /^(?:(?:danger|warning|caution|notice|attention|beware)\b\s*[:!.]|(?:be (?:very )?careful|take care|beware)\b)/iu
const backward =
  /\b(?:previous|preceding|last|earlier) (?:step|command|line)\b|\b(?:command|step|line)s? above\b|\bjust (?:ran|did|deleted|typed)\b/iu

const lateCaution: Rule = {
  id: 'late caution',
  name: 'A caution stands before the hazard',
  why: 'A warning that is read behind the command comes too late.',
  source: remembered('NUREG-0899, cautions and notes; ANSI Z535.6, placement of safety messages'),
  declares: [],
  find: ({ rows }) =>
    rows.flatMap((row) =>
      row.parts.flatMap((read) =>
        read.part.kind === 'caution'
          ? read.sentences
              .filter(({ text }) => backward.test(text))
              .map((sentence) =>
                faultAt(
                  row,
                  read.part,
                  rangeOf(sentence),
                  'This speaks of something that is done already: move it before that.',
                ),
              )
          : warningsIn(row, read),
      ),
    ),
}

function warningsIn(row: ReadRow, read: ReadPart): FaultPlace[] {
  return read.sentences.flatMap((sentence) => {
    if (!signal.test(sentence.text)) return []
    const own = read.sentences.filter(({ block }) => block === sentence.block)
    const from = own.indexOf(sentence)
    const range = { start: paragraphStart(read, rangeOf(sentence).start), end: rangeOf(own.at(-1)!).end }
    const says = 'This warns, and stands where the hazard has begun. It belongs into the caution of the step.'
    const mend =
      from === 0
        ? ({
            does: 'move to the caution',
            label: 'Move it to the caution',
            part: read.part.id,
            range,
          } as const)
        : null
    return [faultAt(row, read.part, range, says, mend)]
  })
}

/** Marks of emphasis before the first word belong to the paragraph. */
const paragraphStart = ({ part }: ReadPart, at: number): number =>
  at - /[*_]*$/u.exec(part.text.slice(0, at))![0].length

const destructiveWithoutCaution: Rule = {
  id: 'destructive without caution',
  name: 'What destroys has a caution',
  why: 'A command that destroys looks like any other until somebody says so.',
  source: remembered('ANSI Z535.6 (notice: loss of property); DOE-STD-1029-92, warnings and cautions'),
  declares: ['destructive without back-up'],
  find: (reading) =>
    destructions(reading).flatMap(({ row, command }) =>
      isWarned(reading, row)
        ? []
        : [
            faultAt(
              row,
              command.part,
              command,
              `“${nameOf(command)}” destroys something here, and no caution says so.`,
            ),
          ],
    ),
}

const destructiveWithoutBackup: Rule = {
  id: 'destructive without back-up',
  name: 'Before something is destroyed, it is backed up',
  why: 'What is gone without a copy is gone.',
  source: practice,
  declares: ['destructive without caution'],
  find: (reading) => {
    if (reading.own.some(({ part }) => part.kind === 'back-up')) return []
    return destructions(reading).flatMap(({ row, command }) =>
      isBackedUp(reading, row, command.start)
        ? []
        : [
            faultAt(
              row,
              command.part,
              command,
              `“${nameOf(command)}” destroys something, and no step before it makes a copy.`,
            ),
          ],
    )
  },
}

type Command = ReadRow['commands'][number]

const nameOf = ({ seen }: Command): string => seen.name ?? 'This command'

function destructions({ rows }: Reading): { row: ReadRow; command: Command }[] {
  return rows.flatMap((row) =>
    row.commands.filter(({ seen }) => destroys(seen)).map((command) => ({ row, command })),
  )
}

/** A caution of a step holds for its sub-steps. */
function isWarned({ rows }: Reading, row: ReadRow): boolean {
  if (partOf(row, 'caution')) return true
  if (row.row.level !== 'sub-step') return false
  const above = rows
    .slice(0, rows.indexOf(row))
    .reverse()
    .find((one) => one.row.level === 'step')
  return above !== undefined && partOf(above, 'caution') !== undefined
}

const copying = new Set([
  'cp',
  'rsync',
  'tar',
  'dd',
  'dump',
  'cpio',
  'pg_dump',
  'pg_dumpall',
  'pg_basebackup',
  'mysqldump',
  'mariadb-dump',
  'mongodump',
  'borg',
  'restic',
  'duplicity',
  'rdiff-backup',
  'rclone',
  'partclone',
  'ntfsclone',
  'xfsdump',
  'etckeeper',
  'sfdisk',
])
const copyingWords =
  /^(?:zfs (?:snapshot|send)|btrfs subvolume snapshot|lvcreate .*(?:-s|--snapshot)\b|git (?:bundle|clone|commit|stash|tag)|docker (?:save|export|commit)|sqlite3 .*\.backup|virsh snapshot-create)/u
const copyingProse = /\b(?:back[- ]?ups?|back up|snapshot|archive|copy of)\b/iu

/** Whether an earlier command or instruction makes a copy of something. Which thing it is of, no rule can say. */
function isBackedUp({ rows }: Reading, row: ReadRow, at: number): boolean {
  const before = rows.slice(0, rows.indexOf(row))
  return (
    before.some((one) => {
      const prose = partOf(one, 'do')?.sentences ?? []
      return one.commands.some(isCopy) || prose.some(({ text }) => copyingProse.test(text))
    }) || row.commands.some((command) => command.start < at && isCopy(command))
  )
}

function isCopy({ seen, text }: Command): boolean {
  if (destroys(seen)) return false
  if (seen.name === 'sfdisk') return /\s(?:-d|--dump|-b|--backup)\b/u.test(text)
  if (seen.name === 'tar') return /\s-{0,2}[A-Za-z]*c|--create/u.test(text)
  return (seen.name !== null && copying.has(seen.name)) || copyingWords.test(text)
}

export const cautionRules: readonly Rule[] = [
  cautionWithAction,
  lateCaution,
  destructiveWithoutCaution,
  destructiveWithoutBackup,
]
