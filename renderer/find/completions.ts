/** What a filter that is being typed may go on as: `kind:` with the kinds, `in:` with the titles of projects. Pure. */
import { fold } from '../../shared/find/index/fold.ts'
import { foundThings } from '../../shared/find/document.ts'
import { entryKinds, sourceKinds } from '../../shared/lab/model.ts'
import { filterText } from './typed.ts'

/** The filters that a person can type, in the order in which they are offered. */
export const filterNames = ['thing', 'kind', 'in', 'tag', 'place', 'when', 'is', 'not'] as const
export type FilterName = (typeof filterNames)[number]

/** What can stand behind a filter's name in this lab. */
export interface FilterValues {
  readonly projects: readonly string[]
  readonly tags: readonly string[]
  readonly places: readonly string[]
}

export interface Completion {
  /** As it is shown and put into the box. */
  readonly text: string
  /** All of what stands in the box once it is taken. */
  readonly typed: string
}

const MOST = 8
const times = ['today', 'yesterday', 'last week', 'this month', 'last month', 'this year']

/** The last piece of what was typed, where it is a filter whose value is not yet closed. */
const open = new RegExp(`(?:^|\\s)((${filterNames.join('|')}):(?:"([^"]*)|“([^”]*)|([^\\s"“]*)))$`, 'u')

/** How what is typed may go on; empty where its end is no filter, or one that says a value of the lab already. */
export function completionsOf(typed: string, values: FilterValues): Completion[] {
  const match = open.exec(typed)
  if (!match) return []
  const [, piece = '', name, quoted, curled, bare] = match
  const begun = fold(quoted ?? curled ?? bare ?? '')
  const all = valuesOf(name as FilterName, values)
  if (all.some((value) => fold(value) === begun)) return []
  const [starting, others] = [
    all.filter((value) => fold(value).startsWith(begun)),
    all.filter((value) => !fold(value).startsWith(begun) && fold(value).includes(begun)),
  ]
  const head = typed.slice(0, typed.length - piece.length)
  return [...starting, ...others].slice(0, MOST).map((value) => {
    const text = filterText(name!, value)
    return { text, typed: `${head}${text} ` }
  })
}

function valuesOf(name: FilterName, { projects, tags, places }: FilterValues): readonly string[] {
  switch (name) {
    case 'thing':
      return foundThings
    case 'kind':
      return [...entryKinds, ...sourceKinds]
    case 'in':
      return [...new Set(projects.filter((title) => title !== '' && !/["“”]/u.test(title)))]
    case 'tag':
      return tags
    case 'place':
      return places
    case 'when':
      return times
    case 'is':
      return ['withdrawn', 'standing']
    case 'not':
      return []
  }
}
