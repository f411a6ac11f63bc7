/** Words that no dictionary has: to spell otherwise, to leave, or to keep as the lab's own. */
import type { ReactNode } from 'react'
import { Button } from '../../../ui/index.ts'
import type { Misspelt } from '../../../workers/spelling.ts'
import type { Spelling } from './useSpelling.ts'

type Spelt = ReadonlyMap<string, string>

export interface SpellingListProps {
  readonly spelling: Spelling
  /** What was chosen for a word. */
  readonly spelt: Spelt
  readonly onSpell: (spelt: Spelt) => void
}

export function SpellingList({ spelling, spelt, onSpell }: SpellingListProps): ReactNode {
  const { state, misspelt, ignore, add } = spelling
  if (state === 'broken')
    return (
      <p className="st-tidying-words" role="status">
        The dictionaries could not be read, so spelling was not looked at. Nothing was changed; tidying works
        without.
      </p>
    )
  if (state === 'asking' || misspelt.length === 0)
    return (
      <p className="st-tidying-words" role="status">
        {state === 'asking' ? 'Looking at the spelling…' : 'No misspelt word was found.'}
      </p>
    )
  const spell = (word: string, as: string | null): void => {
    const next = new Map(spelt)
    if (as === null || spelt.get(word) === as) next.delete(word)
    else next.set(word, as)
    onSpell(next)
  }
  return (
    <ul className="st-tidying-spelling" aria-label="Spelling">
      {misspelt.map((one) => (
        <SpellingItem
          key={one.word}
          misspelt={one}
          chosen={spelt.get(one.word) ?? null}
          onSpell={(as) => spell(one.word, as)}
          onIgnore={() => (spell(one.word, null), ignore(one.word))}
          onAdd={() => (spell(one.word, null), add(one.word))}
        />
      ))}
    </ul>
  )
}

interface SpellingItemProps {
  readonly misspelt: Misspelt
  readonly chosen: string | null
  readonly onSpell: (as: string) => void
  readonly onIgnore: () => void
  readonly onAdd: () => void
}

function SpellingItem({
  misspelt: { word, suggestions },
  chosen,
  onSpell,
  onIgnore,
  onAdd,
}: SpellingItemProps) {
  return (
    <li className="st-tidying-word" aria-label={word}>
      <span className="st-tidying-misspelt">{word}</span>
      <span className="st-button-row">
        {suggestions.map((one) => (
          <Button key={one} pressed={chosen === one} onClick={() => onSpell(one)}>
            {one}
          </Button>
        ))}
        <Button look="quiet" label={`Ignore ${word}`} onClick={onIgnore}>
          Ignore
        </Button>
        <Button look="quiet" label={`Add to the lab’s words: ${word}`} onClick={onAdd}>
          Add to the lab’s words
        </Button>
      </span>
    </li>
  )
}
