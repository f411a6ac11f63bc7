/** What is said while walking along links. Pure. */
import type { LinkNode } from '../../shared/lab/model.ts'
import { plainWords } from '../../shared/markdown/words.ts'
import type { TraceDirection } from '../../shared/provenance/trace.ts'
import { nameOfNode } from '../panes/procedure/words.ts'
import type { ProjectView } from '../store/view.ts'
import type { Walked, Way } from './walk.ts'

/** So many characters of the words that one came to are said. */
const MOST_SAID = 90

/** Where one came: "Back at 19:18, action: “systemctl stop weather-logger”. 1 of 3 links." */
export function arrivalWords(view: ProjectView, { to, which }: Walked, direction: TraceDirection): string {
  const way = which === null ? 'Returned to' : direction === 'back' ? 'Back at' : 'Forward to'
  const words = wordsAt(view, to)
  const place = which === null || which.of === 1 ? '' : ` ${which.place} of ${which.of}.`
  return `${way} ${nameIn(view, to.node)}${words === '' ? '' : `: “${words}”`}.${place}`
}

function nameIn(view: ProjectView, node: LinkNode): string {
  const name = nameOfNode(view, node)
  if (name !== null) return node.kind === 'part' ? name.charAt(0).toLowerCase() + name.slice(1) : name
  return { entry: 'an entry', part: 'a part', capture: 'a source', source: 'a source' }[node.kind]
}

function wordsAt(view: ProjectView, { node, ranges }: Way): string {
  const text = node.kind === 'entry' || node.kind === 'part' ? view.texts.get(node.id) : undefined
  if (text === undefined) return ''
  const first = ranges[0]
  return plainWords(first ? text.slice(first.start, first.end) : text, MOST_SAID)
}

export const nowhere =
  'Go to a step, an entry or a source first: links are walked from where the keyboard is.'

/** The sentence at the end of a chain. */
export function endWords(direction: TraceDirection, kind: 'source' | 'other'): string {
  if (direction === 'forward') return 'Nothing came of this yet: the chain ends here.'
  return kind === 'source'
    ? 'The chain begins here: sources come from outside.'
    : 'The chain begins here: this was written by hand and rests on nothing.'
}

export const goneWords = 'What this link leads to is no longer in the lab.'
