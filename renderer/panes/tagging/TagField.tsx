/** The tags of one source, entry or project: what it has, a line for more, and what is suggested. Saves at once. */
import { useId, useMemo, useRef, useState, type KeyboardEvent } from 'react'
import { nodeOf, tagsOf, toTags, type Tagged } from '../../../shared/lab/acts.ts'
import { redo, undo } from '../../store/gestures.ts'
import { useWorkspace, useWorkspaceState } from '../../store/useWorkspace.ts'
import { Button } from '../../ui/index.ts'
import type { SuggestedTag } from '../../workers/tags.ts'
import { addTags, asItStands, judgeSuggestion, removeTag } from './acts.ts'
import { groupsOf, toOwnSpelling } from './offers.ts'
import { REFUSE_FIRST, SuggestedTags, TAKE_FIRST } from './SuggestedTags.tsx'
import { TagInput } from './TagInput.tsx'
import { TagList } from './TagList.tsx'
import { keepTyped, typedFor } from './typedWords.ts'
import { useOwnTags } from './useOwnTags.ts'
import { useSuggestions } from './useSuggestions.ts'
import './tagging.css'

export interface TagFieldProps {
  readonly thing: Tagged
  /** Takes the keyboard when it appears. */
  readonly autoFocus?: boolean
  /** Where the field was opened for a while: shows a button that ends that, and Escape does too. */
  readonly onClose?: () => void
}

export function TagField(props: TagFieldProps) {
  // What is typed for one thing must never become another's tag.
  return <FieldOf key={nodeOf(props.thing).id} {...props} />
}

function FieldOf({ thing: given, autoFocus = false, onClose }: TagFieldProps) {
  const workspace = useWorkspace()
  const thing = useAsItStands(given)
  const { id: node } = nodeOf(thing)
  const id = useId()
  const input = useRef<HTMLInputElement>(null)
  const [words, setWords] = useState(() => typedFor(workspace, node))
  const [done, setDone] = useState('')
  const own = useOwnTags()
  const suggestions = useSuggestions(thing)
  const shown = useMemo(() => groupsOf(suggestions.tags).flatMap(({ tags }) => tags), [suggestions.tags])
  const has = tagsOf(thing)
  const type = (next: string): void => {
    setWords(next)
    keepTyped(workspace, node, next)
  }
  const judge = (suggestion: SuggestedTag, isAccepted: boolean): void => {
    suggestions.hide(suggestion.tag)
    setDone(isAccepted ? `Tagged ${suggestion.tag}.` : `Refused ${suggestion.tag}.`)
    void judgeSuggestion(workspace, thing, suggestion, isAccepted)
  }
  const add = (typed: string): void => {
    const tags = toTags(typed).map((tag) => toOwnSpelling(tag, own))
    for (const tag of tags) {
      // What was suggested and is typed was accepted all the same.
      const suggestion = shown.find((one) => one.tag === tag)
      if (suggestion) judge(suggestion, true)
    }
    const others = tags.filter((tag) => !shown.some((one) => one.tag === tag))
    if (others.length === 0) return
    setDone(`Tagged ${others.join(', ')}.`)
    void addTags(workspace, thing, others)
  }
  const remove = (tag: string): void => {
    setDone(`Took off ${tag}.`)
    void removeTag(workspace, thing, tag)
  }
  const toInput = (): void => input.current?.focus()
  const onKeyDown = (event: KeyboardEvent): void => {
    const isFirst = event.altKey && !event.ctrlKey && !event.metaKey && !event.shiftKey
    const [first] = shown
    if (isFirst && first && (event.code === TAKE_FIRST.code || event.code === REFUSE_FIRST.code))
      judge(first, event.code === TAKE_FIRST.code)
    else if (event.key === 'Escape' && onClose && !event.defaultPrevented) onClose()
    else return
    event.preventDefault()
    event.stopPropagation()
  }
  return (
    <div className="st-tags" role="group" aria-label={`Tags of ${nameOf(thing)}`} onKeyDown={onKeyDown}>
      <div className="st-tags-line">
        <TagList tags={has} onRemove={remove} onLeave={toInput} />
        <TagInput
          input={input}
          label={`Add a tag to ${nameOf(thing)}`}
          describedBy={shown.length > 0 ? `${id}-keys` : undefined}
          words={words}
          onWords={type}
          own={own}
          has={has}
          onAdd={add}
          onRemoveLast={() => remove(has.at(-1)!)}
          onUndo={(isRedo) => void (isRedo ? redo(workspace) : undo(workspace))}
          autoFocus={autoFocus}
        />
        {onClose ? (
          <Button look="quiet" keys="Escape" onClick={onClose}>
            Done
          </Button>
        ) : null}
      </div>
      <SuggestedTags
        suggestions={suggestions}
        shown={shown}
        keysId={`${id}-keys`}
        onJudge={judge}
        onLeave={toInput}
      />
      <p className="st-unseen" role="status">
        {done}
      </p>
    </div>
  )
}

/** Whoever shows the field may hold an older record, for instance of a source that the open project does not use. */
function useAsItStands(given: Tagged): Tagged {
  const labSources = useWorkspaceState((state) => state.labSources)
  const projects = useWorkspaceState((state) => state.projects)
  const view = useWorkspaceState((state) => state.view)
  return asItStands({ labSources, projects, view }, given)
}

function nameOf(thing: Tagged): string {
  switch (thing.kind) {
    case 'source':
      return `“${thing.record.title || thing.record.address || 'this source'}”`
    case 'project':
      return `“${thing.record.title}”`
    case 'entry':
      return 'this entry'
  }
}
