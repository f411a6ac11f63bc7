/** Suggestions beside the tags that stand: dashed, said to be suggestions, each with its reason. */
import type { KeyboardEvent } from 'react'
import type { SuggestedTag } from '../../workers/tags.ts'
import { Kbd, ProgressLine } from '../../ui/index.ts'
import { AddIcon, CloseIcon } from '../../ui/icons.tsx'
import { groupsOf, wordsOfWhy } from './offers.ts'
import type { Suggestions } from './useSuggestions.ts'
import { useRoving } from './useRoving.ts'

/** Keys for the first suggestion, while the keyboard is anywhere in the field. Alt+1 to Alt+6 begin an entry. */
export const TAKE_FIRST = { code: 'KeyA', keys: 'Alt+A' } as const
export const REFUSE_FIRST = { code: 'KeyX', keys: 'Alt+X' } as const

export interface SuggestedTagsProps {
  readonly suggestions: Suggestions
  /** In the order in which they are shown. */
  readonly shown: readonly SuggestedTag[]
  readonly keysId: string
  readonly onJudge: (suggestion: SuggestedTag, isAccepted: boolean) => void
  /** Gets the focus when the last suggestion went. */
  readonly onLeave: () => void
}

export function SuggestedTags({ suggestions, shown, keysId, onJudge, onLeave }: SuggestedTagsProps) {
  const { learning, isBroken } = suggestions
  const roving = useRoving('.st-suggested-take', shown.length, onLeave)
  if (isBroken)
    return (
      <p className="st-suggested-broken" role="status">
        No tags can be suggested just now. Your tags are safe and can be typed here; open this again to try
        anew.
      </p>
    )
  return (
    <>
      {learning === null ? null : <ProgressLine words="Learning from your tags" share={learning} />}
      {shown.length === 0 ? null : (
        <div className="st-suggested">
          <p className="st-suggested-head">
            <span className="st-suggested-name">Suggested</span>
            <span id={keysId} className="st-suggested-keys">
              <span className="st-unseen">Of the first one: </span>
              <Kbd keys={TAKE_FIRST.keys} /> take, <Kbd keys={REFUSE_FIRST.keys} /> refuse
            </span>
          </p>
          <ul
            ref={roving.ref}
            className="st-suggested-groups"
            aria-label="Suggested tags"
            onFocus={roving.onFocus}
            onBlur={roving.onBlur}
            onKeyDown={roving.onKeyDown}
          >
            {groupsOf(shown).map(({ words, tags }) => (
              <li key={words} className="st-suggested-group">
                <span className="st-suggested-why">{words}</span>
                <ul className="st-suggested-list">
                  {tags.map((suggestion) => (
                    <Suggestion
                      key={suggestion.tag}
                      suggestion={suggestion}
                      place={shown.indexOf(suggestion)}
                      isInReach={shown.indexOf(suggestion) === roving.place}
                      onJudge={(isAccepted) => onJudge(suggestion, isAccepted)}
                    />
                  ))}
                </ul>
              </li>
            ))}
          </ul>
        </div>
      )}
    </>
  )
}

interface SuggestionProps {
  readonly suggestion: SuggestedTag
  readonly place: number
  readonly isInReach: boolean
  readonly onJudge: (isAccepted: boolean) => void
}

/** Enter or a press takes it, Delete or the cross refuses it. */
function Suggestion({ suggestion, place, isInReach, onJudge }: SuggestionProps) {
  const { tag, why } = suggestion
  const onKeyDown = (event: KeyboardEvent): void => {
    if (event.key !== 'Delete' && event.key !== 'Backspace') return
    event.preventDefault()
    event.stopPropagation()
    onJudge(false)
  }
  return (
    <li className="st-tag st-tag--suggested">
      <button
        type="button"
        className="st-suggested-take"
        aria-label={`${tag}: take this suggested tag, ${wordsOfWhy(why)}`}
        aria-keyshortcuts={place === 0 ? `${TAKE_FIRST.keys} Delete` : 'Delete'}
        tabIndex={isInReach ? 0 : -1}
        onClick={() => onJudge(true)}
        onKeyDown={onKeyDown}
      >
        <AddIcon />
        <span className="st-tag-word">{tag}</span>
      </button>
      <button
        type="button"
        className="st-tag-remove"
        aria-label={`Refuse the suggested tag ${tag}`}
        tabIndex={-1}
        onClick={() => onJudge(false)}
      >
        <CloseIcon />
      </button>
    </li>
  )
}
