/** The box: one line to type into, and what was found. */
import { useDeferredValue, useEffect, useId, useMemo, useRef, useState, type KeyboardEvent } from 'react'
import type { StepId } from '../../shared/lab/ids.ts'
import { copyText } from '../store/copyText.ts'
import { actsOffered } from '../store/offers.ts'
import { useWorkspace } from '../store/useWorkspace.ts'
import type { Workspace } from '../store/workspace.ts'
import { Panel } from '../trace/Panel.tsx'
import { ErrorSentence, ProgressLine, TextInput } from '../ui/index.ts'
import { nextPlace } from '../ui/roving.ts'
import { findActs } from './acts.ts'
import { answerRows } from './answers.ts'
import { carryRow } from './carrying.ts'
import { partOf } from './commands.ts'
import { completionsOf } from './completions.ts'
import { Chips, FilterMenu, Narrow, Order } from './Filters.tsx'
import { Foot } from './Foot.tsx'
import { goToCommand, goToHit, goToPassage, goToStep } from './going.ts'
import { countsOf, rowsOf, toGroups, type FoundRow } from './groups.ts'
import { Hints } from './Hints.tsx'
import { idOfRow, List } from './List.tsx'
import { closeFind, drawn, leaveFind, returnFromFind } from './open.ts'
import { narrowTo, setTyped, showMore, useFind } from './state.ts'
import { useFilterValues } from './useFilterValues.ts'
import { useFound } from './useFound.ts'
import { adviceFor, countedWords } from './words.ts'
import './find.css'

export function FindPanel() {
  const workspace = useWorkspace()
  const typed = useFind((state) => state.typed)
  const { found, groups, rows, counts } = useGroups()
  const { answer, share, hasFailed, upToDate } = found
  const listId = useId()
  const field = useRef<HTMLInputElement>(null)
  const [active, setActive] = useActive(rows, typed)
  const latest = useRef({ rows, active })
  useEffect(() => {
    latest.current = { rows, active }
  })
  const isFirstFocus = useRef(true)
  const isEmpty = typed.trim() === ''

  /** The row that is meant: of what stands in the box now, not of what was answered before its last letter. */
  const meant = async (): Promise<FoundRow | undefined> => {
    await upToDate()
    await drawn()
    return latest.current.active
  }
  const choose = async (row: FoundRow | undefined): Promise<void> => {
    if (!row) return
    if (row.is === 'completion') return setTyped(row.completion.typed)
    if (row.is === 'more')
      return row.of === useFind.getState().narrow || row.of === 'all' ? showMore() : narrowTo(row.of)
    if (row.is === 'act') returnFromFind()
    else leaveFind()
    await act(workspace, row)
  }
  const carry = async (row: FoundRow | undefined): Promise<void> => {
    if (!row || row.is === 'completion' || row.is === 'more') return
    const { from } = useFind.getState()
    if (await carryRow(workspace, row, from)) returnFromFind()
  }
  const copy = (row: FoundRow | undefined): void => {
    if (row?.is === 'command') void copyText(workspace, row.command.command, 'Copied the command.')
    else if (row?.is === 'hit') void copyText(workspace, row.hit.excerpt.text, 'Copied the words.')
  }
  const onKeyDown = (event: KeyboardEvent<HTMLInputElement>): void => {
    const isPlain = !event.altKey && !event.metaKey && !event.shiftKey
    if (event.key === 'Enter' && isPlain && !event.nativeEvent.isComposing) {
      event.preventDefault()
      const then = event.ctrlKey ? carry : choose
      return void meant().then(then)
    }
    if (event.key === 'c' && event.ctrlKey && isPlain && hasNoSelection(event.currentTarget)) {
      event.preventDefault()
      return copy(active)
    }
    const next = nextRow(event, rows, active)
    if (!next) return
    event.preventDefault()
    setActive(next.key)
  }

  return (
    <Panel title="Find" band="middle" className="st-finder" onClose={closeFind}>
      <div className="st-finder-head">
        <TextInput
          ref={field}
          label="Find anything"
          hidesLabel
          className="st-finder-field"
          placeholder="Words, a command, a path, an act of the program"
          data-first
          role="combobox"
          aria-expanded={rows.length > 0}
          aria-controls={listId}
          aria-autocomplete="list"
          aria-activedescendant={active ? idOfRow(listId, rows.indexOf(active)) : undefined}
          autoComplete="off"
          spellCheck={false}
          value={typed}
          onChange={(event) => setTyped(event.currentTarget.value)}
          onFocus={(event) => {
            // What was looked for last stands there to be typed over; at once, or it would take a quick hand's first letters.
            if (isFirstFocus.current) event.currentTarget.select()
            isFirstFocus.current = false
          }}
          onKeyDown={onKeyDown}
        />
        <FilterMenu field={field} />
      </div>
      <Chips query={answer?.query ?? null} field={field} />
      {isEmpty ? null : (
        <div className="st-finder-tools">
          <Narrow counts={counts} />
          <Order />
        </div>
      )}
      {share === null ? null : (
        <ProgressLine words="The index is being built. What is shown is what is in it so far" share={share} />
      )}
      {hasFailed ? (
        <ErrorSentence
          happened="Nothing could be looked for."
          safe="Nothing was changed."
          next="Type on to try again; if it fails again, close this window and open it anew."
        />
      ) : null}
      <List
        id={listId}
        of={found.typed}
        groups={groups}
        rows={rows}
        active={active}
        onActive={setActive}
        onChoose={(row) => void choose(row)}
        onCarry={(row) => void carry(row)}
        onCopy={copy}
      />
      {isEmpty ? <Hints /> : null}
      <p className={answer && rows.length === 0 ? 'st-finder-nothing' : 'st-unseen'} role="status">
        {isEmpty || !answer ? '' : countedWords(counts)}
        {answer && rows.length === 0 ? ` ${adviceFor(answer.query)}` : ''}
      </p>
      <Foot active={active} />
    </Panel>
  )
}

function useGroups() {
  const found = useFound()
  const { typed, order, narrow } = useFind()
  const values = useFilterValues()
  const { answer, commands, answered } = found
  // Menus are asked for their lines behind what was typed, which must not wait for them.
  const words = useDeferredValue(answer && answer.query.typed === typed ? partOf(answer.query) : typed)
  const acts = useMemo(() => (words.trim() === '' ? [] : findActs(actsOffered(), words)), [words])
  const completions = useMemo(() => completionsOf(typed, values), [typed, values])
  return useMemo(() => {
    const answers = answerRows(answered)
    const parts = { answer, commands, acts, completions, answers, order, narrow }
    const groups = toGroups(parts)
    return { found, groups, rows: rowsOf(groups), counts: countsOf(parts) }
  }, [found, answer, commands, answered, acts, completions, order, narrow])
}

/** The row that the keyboard is at: the first until another is chosen, and again once something else is typed. */
function useActive(rows: readonly FoundRow[], typed: string): [FoundRow | undefined, (key: string) => void] {
  const [chosen, setChosen] = useState({ key: '', typed })
  const row = chosen.typed === typed ? rows.find(({ key }) => key === chosen.key) : undefined
  return [row ?? rows[0], (key) => setChosen({ key, typed })]
}

/** The row that a key leads to: the arrows go through all, Page up and down from group to group. */
function nextRow(
  { key, altKey, ctrlKey, metaKey, shiftKey }: KeyboardEvent,
  rows: readonly FoundRow[],
  active: FoundRow | undefined,
): FoundRow | undefined {
  if (altKey || ctrlKey || metaKey || shiftKey || key === 'Home' || key === 'End') return undefined
  const at = active ? rows.indexOf(active) : -1
  if (key === 'PageDown' || key === 'PageUp') return rows[groupBeside(rows, at, key === 'PageDown' ? 1 : -1)]
  const next = nextPlace(key, at, rows.length, 'vertical')
  return next === null ? undefined : rows[next]
}

function groupBeside(rows: readonly FoundRow[], at: number, by: 1 | -1): number {
  const starts = rows.flatMap((row, place) =>
    place === 0 || sortOf(row) !== sortOf(rows[place - 1]!) ? [place] : [],
  )
  const [next] =
    by === 1 ? starts.filter((start) => start > at) : starts.filter((start) => start < at).reverse()
  return next ?? (by === 1 ? rows.length - 1 : 0)
}

function sortOf(row: FoundRow): string {
  if (row.is === 'hit') return row.hit.thing
  return row.is === 'more' ? row.of : row.is
}

const hasNoSelection = ({ selectionStart, selectionEnd }: HTMLInputElement): boolean =>
  selectionStart === selectionEnd

async function act(workspace: Workspace, row: FoundRow): Promise<void> {
  if (row.is === 'hit') await goToHit(workspace, row.hit)
  else if (row.is === 'command') await goToCommand(workspace, row.command)
  else if (row.is === 'answer') await goToPassage(workspace, row.passage)
  else if (row.is === 'answer step') await goToStep(workspace, row.step.id as StepId)
  else if (row.is === 'act') row.found.act.item.onChoose()
}
