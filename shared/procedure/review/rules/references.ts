/** Rules about parameters, values and steps that a text names. */
import { visit } from 'unist-util-visit'
import { placeholdersIn } from '../../values/placeholders.ts'
import { maybeTree } from '../../../markdown/parse.ts'
import { literalsIn } from '../literals.ts'
import { once } from '../once.ts'
import { faultAt, rangeOf, type Reading, type ReadRow } from '../reading.ts'
import { practice, handbook, type Rule } from '../rule.ts'
import type { Edit, FaultPlace, Mend, ReviewedPart } from '../types.ts'

/** Every text that may hold a placeholder, with those of files' paths. */
const textsOf = ({ document }: Reading): { row: ReadRow['row'] | null; part: ReviewedPart }[] => [
  ...document.parts.map((part) => ({ row: null, part })),
  ...document.rows.flatMap((row) => row.parts.map((part) => ({ row, part }))),
]

const undefinedParameter: Rule = {
  id: 'undefined parameter',
  name: 'Parameters are declared',
  why: 'Nobody is asked for a value that is not declared, and the placeholder ends up in the command.',
  source: practice,
  declares: [],
  find: (reading) => {
    const names = new Map(reading.document.parameters.map(({ name }) => [name, name]))
    return textsOf(reading).flatMap(({ row, part }) =>
      placeholdersIn(part.text)
        .filter(({ name }) => !names.has(name))
        .map(({ name, start, end }) => {
          const near = [...names.keys()].find((one) => isNear(one, name))
          const mend: Mend = near
            ? rename(part, start, end, near)
            : { does: 'declare a parameter', label: `Declare ${name}`, name }
          return { ...pointAt(row, part, start, end), sentence: `No parameter is called “${name}”.`, mend }
        }),
    )
  },
}

const rename = ({ id }: ReviewedPart, start: number, end: number, name: string): Mend => {
  const edits: Edit[] = [{ part: id, start: start + 1, end: end - 1, insert: name }]
  return { does: 'edit', label: `Write ${name}`, edits }
}

const pointAt = (row: ReadRow['row'] | null, part: ReviewedPart, start: number, end: number) => ({
  step: row?.id ?? null,
  part: part.id,
  range: { start, end },
  words: part.text.slice(start, end),
})

/** Whether two names differ by one letter put in, left out or changed, or by capitals and separators alone. */
function isNear(one: string, other: string): boolean {
  const plain = (name: string): string => name.toLowerCase().replace(/[_-]/gu, '')
  const [a, b] = [plain(one), plain(other)].sort((x, y) => x.length - y.length) as [string, string]
  if (a === b) return true
  if (a.length < 4 || b.length - a.length > 1) return false
  let same = 0
  while (same < a.length && a[same] === b[same]) same += 1
  return a.slice(same + (a.length === b.length ? 1 : 0)) === b.slice(same + 1)
}

const unusedParameter: Rule = {
  id: 'unused parameter',
  name: 'Parameters are used',
  why: 'Who is asked for a value that nothing uses looks for the place where it should have gone.',
  source: practice,
  declares: [],
  find: (reading) => {
    const used = new Set(textsOf(reading).flatMap(({ part }) => namesIn(part)))
    return reading.document.parameters
      .filter(({ name }) => !used.has(name))
      .map(({ id, name }) => ({
        ...{ step: null, part: null, range: null, words: name },
        sentence: `Nothing uses the parameter “${name}”.`,
        mend: { does: 'remove a parameter', label: `Remove ${name}`, parameter: id },
      }))
  },
}

const namesIn = ({ text, file }: ReviewedPart): string[] =>
  placeholdersIn([text, file?.path ?? '', file?.owner ?? '', file?.group ?? ''].join('\n')).map(
    ({ name }) => name,
  )

const asking =
  /\b(?:(?:put|use|take|enter|give|write|insert|fill in|substitute) your own|(?:replace|exchange|substitute)\b.*\b(?:with|by|for) your\b|yours? (?:\w+ )?may (?:have|be|differ)|where .* stands? below)/iu

const literalValue: Rule = {
  id: 'literal value',
  name: 'Values of one house are parameters',
  why: 'A value that has to be changed at several places is forgotten at one of them.',
  source: handbook('Red Hat supplementary style guide, user-replaced values'),
  declares: [],
  find: (reading) => [...askingFaults(reading), ...repeatedFaults(reading)],
}

const askingFaults = ({ all }: Reading): FaultPlace[] =>
  all.flatMap(({ row, read }) =>
    read.sentences
      .filter(({ text }) => asking.test(text))
      .map((sentence) =>
        faultAt(
          row,
          read.part,
          rangeOf(sentence),
          'This asks for a value by words. A parameter puts it in everywhere.',
        ),
      ),
  )

const literalsOf = once(({ text }: ReviewedPart) => literalsIn(text))

/** One fault for each value that stands in the commands or files of several steps. */
function repeatedFaults({ rows }: Reading): FaultPlace[] {
  interface Place {
    readonly row: ReadRow
    readonly part: ReviewedPart
    readonly start: number
    readonly end: number
    readonly text: string
  }
  const groups = new Map<string, Place[]>()
  for (const row of rows)
    for (const read of row.parts) {
      const { part } = read
      if (part.kind !== 'do' && part.kind !== 'file') continue
      const scripts = part.kind === 'file' ? null : read.scripts
      for (const { group, start, end, text } of literalsOf(part)) {
        const isInCommand = scripts === null || scripts.some((one) => start >= one.start && end <= one.end)
        if (isInCommand) groups.set(group, [...(groups.get(group) ?? []), { row, part, start, end, text }])
      }
    }
  return [...groups.values()].flatMap((places) => {
    const steps = new Set(places.map(({ row }) => row))
    const first = places[0]!
    if (steps.size < 2) return []
    const mend: Mend = {
      does: 'make a parameter',
      label: `Make a parameter of ${first.text}`,
      value: first.text,
    }
    const says = `“${first.text}” or what belongs to it stands in the commands of ${steps.size} steps.`
    return [faultAt(first.row, first.part, first, says, mend)]
  })
}

const lostReference: Rule = {
  id: 'lost reference',
  name: 'Steps that are referred to are there',
  why: '“Go back to step 9” of a procedure with eight steps leads nowhere.',
  source: practice,
  declares: [],
  find: (reading) => {
    const numbers = new Map(reading.document.rows.map(({ id, number }) => [id as string, number]))
    const known = new Set(numbers.values())
    return reading.all.flatMap(({ row, read }) => [
      ...linkedSteps(read.part)
        .filter(({ step }) => !numbers.has(step))
        .map(({ start, end }) =>
          faultAt(row, read.part, { start, end }, 'The step that this refers to is gone.'),
        ),
      ...read.sentences.flatMap((sentence) => {
        return numbersIn(sentence.text)
          .filter(({ number }) => !known.has(number))
          .map(({ start, end, number }) =>
            faultAt(row, read.part, rangeOf(sentence, start, end), `There is no step ${number}.`),
          )
      }),
    ])
  },
}

function linkedSteps({ text }: ReviewedPart): { step: string; start: number; end: number }[] {
  const found: { step: string; start: number; end: number }[] = []
  const tree = text.includes('](step:') ? maybeTree(text) : undefined
  if (!tree) return found
  visit(tree, 'link', ({ url, position }) => {
    if (!url.startsWith('step:') || !position) return
    found.push({ step: url.slice(5), start: position.start.offset!, end: position.end.offset! })
  })
  return found
}

/** The numbers of “step 3”, “steps 1 to 5 and 9”; a step of a link goes by its address. */
function numbersIn(text: string): { number: string; start: number; end: number }[] {
  return Array.from(
    text.matchAll(/\bsteps? (\d+(?:\.\d+)?(?:(?:,? (?:to|and|or|through) |, |–|-)\d+(?:\.\d+)?)*)/giu),
  ).flatMap((match) => {
    const from = match.index + match[0].length - match[1]!.length
    return Array.from(match[1]!.matchAll(/\d+(?:\.\d+)?/gu), (one) => ({
      number: one[0],
      start: from + one.index,
      end: from + one.index + one[0].length,
    }))
  })
}

export const referenceRules: readonly Rule[] = [
  undefinedParameter,
  unusedParameter,
  literalValue,
  lostReference,
]
