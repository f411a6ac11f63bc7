/** What narrows: filters that were typed, as chips; groups with their counts; the order. */
import type { ReactNode, RefObject } from 'react'
import type { FindQuery } from '../../shared/find/query/query.ts'
import { useWorkspaceState } from '../store/useWorkspace.ts'
import { Button, Menu, type MenuLine } from '../ui/index.ts'
import { CloseIcon, FilterIcon } from '../ui/icons.tsx'
import { chipsOf, type Chip } from './chips.ts'
import type { FilterName } from './completions.ts'
import type { FindOrder, GroupName } from './groups.ts'
import { keepAsWords, narrowTo, setOrder, setTyped, useFind } from './state.ts'
import { isLonePath, withoutRange } from './typed.ts'
import { localOffsetAt, narrowWord } from './words.ts'

type Field = RefObject<HTMLInputElement | null>

interface ChipsProps {
  readonly query: FindQuery | null
  readonly field: Field
}

/** Each filter that was read can be taken away, or be read as words where it was made of some. */
export function Chips({ query, field }: ChipsProps): ReactNode {
  const projects = useWorkspaceState((state) => state.projects)
  const typed = useFind((state) => state.typed)
  // What was read of an older text stands at other places of this one.
  if (query?.typed !== typed) return null
  const chips = chipsOf(query, (id) => projects.find((one) => one.id === id)?.title ?? '', localOffsetAt)
  if (chips.length === 0) return null
  const takeAway = ({ range }: Chip): void => {
    setTyped(withoutRange(typed, range))
    field.current?.focus()
  }
  const keep = ({ range }: Chip): void => {
    keepAsWords(range)
    field.current?.focus()
  }
  return (
    <ul className="st-finder-chips" aria-label="Filters that were read">
      {chips.map((chip) => (
        <li key={chip.key} className="st-finder-chip">
          <button
            type="button"
            className="st-chip st-chip--set"
            aria-label={`Take away: ${chip.sort} ${chip.word}`}
            onClick={() => takeAway(chip)}
          >
            <span className="st-chip-word">
              {chip.sort}: {chip.word}
            </span>
            <CloseIcon size="0.8em" />
          </button>
          {chip.canKeep ? (
            <Button look="quiet" label={`as words: ${chip.word}`} onClick={() => keep(chip)}>
              as words
            </Button>
          ) : null}
        </li>
      ))}
    </ul>
  )
}

const filterLines: readonly { readonly name: FilterName; readonly word: string }[] = [
  { name: 'kind', word: 'A kind of entry or source' },
  { name: 'in', word: 'In a project' },
  { name: 'tag', word: 'With a tag' },
  { name: 'place', word: 'At a place: machine, user, directory' },
  { name: 'when', word: 'At a time: last March, since Monday' },
  { name: 'is', word: 'Withdrawn entries alone, or none of them' },
  { name: 'not', word: 'Without a word' },
]

/** Puts the name of a filter behind what was typed; its values are offered then. */
export function FilterMenu({ field }: { readonly field: Field }): ReactNode {
  const lines: MenuLine[] = filterLines.map(({ name, word }) => ({
    id: name,
    word,
    hint: `${name}:`,
    onChoose: () => {
      const { typed } = useFind.getState()
      setTyped(`${typed}${typed === '' || typed.endsWith(' ') ? '' : ' '}${name}:`)
      // The menu gives the keyboard back to its button first.
      setTimeout(() => field.current?.focus())
    },
  }))
  return (
    <Menu
      label="Filters"
      lines={lines}
      trigger={(attributes) => <Button {...attributes} look="quiet" icon={FilterIcon} label="Add a filter" />}
    />
  )
}

interface NarrowProps {
  readonly counts: ReadonlyMap<GroupName, number>
}

/** The groups with their counts; pressed, one alone is shown. */
export function Narrow({ counts }: NarrowProps): ReactNode {
  const narrow = useFind((state) => state.narrow)
  const names = [...new Set([...counts.keys(), ...(narrow === null ? [] : [narrow])])]
  if (names.length < 2 && narrow === null) return null
  return (
    <div className="st-finder-narrow" role="group" aria-label="Show one sort alone">
      <button type="button" className="st-chip" aria-pressed={narrow === null} onClick={() => narrowTo(null)}>
        <span className="st-chip-word">All</span>
      </button>
      {names.map((name) => (
        <button
          key={name}
          type="button"
          className="st-chip"
          aria-pressed={name === narrow}
          onClick={() => narrowTo(name === narrow ? null : name)}
        >
          <span className="st-chip-word">{narrowWord(name)}</span>
          <span className="st-chip-count">{(counts.get(name) ?? 0).toLocaleString('en')}</span>
        </button>
      ))}
    </div>
  )
}

const orders: readonly { readonly order: FindOrder; readonly word: string }[] = [
  { order: 'best', word: 'Best first' },
  { order: 'oldest', word: 'Oldest first' },
  { order: 'newest', word: 'Newest first' },
]

/** What touched a path is best read in the order in which it happened; that is offered for one that stands alone. */
export function Order(): ReactNode {
  const order = useFind((state) => state.order)
  const path = useFind((state) => (isLonePath(state.typed) ? state.typed.trim() : null))
  const showStory = (): void => {
    // In quotes: what holds a part of the path alone has not touched it.
    setTyped(`"${path}"`)
    setOrder('oldest')
  }
  return (
    <div className="st-finder-order" role="group" aria-label="Order">
      {path === null ? null : <Button onClick={showStory}>All that touched it, in order</Button>}
      {orders.map(({ order: one, word }) => (
        <button
          key={one}
          type="button"
          className="st-chip"
          aria-pressed={one === order}
          onClick={() => setOrder(one)}
        >
          <span className="st-chip-word">{word}</span>
        </button>
      ))}
    </div>
  )
}
