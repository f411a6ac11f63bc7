import { useEffect, useState } from 'react'
import type { LinkNode } from '../../shared/lab/model.ts'
import { toStorableText } from '../../shared/lab/text.ts'
import { SHORTEST_STRIKE } from '../../shared/safety/mask.ts'
import { strikeOut } from '../store/gestures.ts'
import { useWorkspace } from '../store/useWorkspace.ts'
import { Button, Dialog, TextInput } from '../ui/index.ts'
import { StrikeOutIcon } from '../ui/icons.tsx'

export interface StrikeOutProps {
  /** Where the person pointed at the text. */
  readonly node: LinkNode
  /** What is to be taken away for good, as it was selected. */
  readonly text: string
  readonly onClose: () => void
}

/** Longer texts are shown with their middle left out, in UTF-16 code units. */
const MOST_SHOWN = 240

/** Takes a text away for good, after saying what that means and asking twice. Does not stand in the way of the journal. */
export function StrikeOut({ node, text, onClose }: StrikeOutProps) {
  const workspace = useWorkspace()
  const words = toStorableText(text).trim()
  const isTooShort = words.length < SHORTEST_STRIKE
  const [isAsked, setAsked] = useState(false)
  const [isStriking, setStriking] = useState(false)
  const [reason, setReason] = useState('')
  const strike = async () => {
    setStriking(true)
    const isDone = await strikeOut(workspace, node, words, reason.trim()).finally(() => setStriking(false))
    if (!isDone) return
    workspace.say(
      'done',
      'Struck out in the whole lab. If it was a secret, change it now wherever it is used. Its bytes may still lie in the database’s files.',
      {
        word: 'Rewrite the store…',
        onAct: () => workspace.set({ panel: { kind: 'seal' } }),
      },
    )
    onClose()
  }
  return (
    <Dialog
      title="Strike out"
      onClose={onClose}
      actions={
        <>
          <Button onClick={onClose} {...(isTooShort ? { 'data-first': true } : {})}>
            Leave it as it is
          </Button>
          {isTooShort ? null : isAsked ? (
            <Button look="danger" disabled={isStriking} onClick={() => void strike()}>
              Yes, strike it out for good
            </Button>
          ) : (
            <Button icon={StrikeOutIcon} onClick={() => setAsked(true)}>
              Strike out…
            </Button>
          )}
        </>
      }
    >
      <pre className="st-code">{shortened(words)}</pre>
      {isTooShort ? (
        <p role="status">
          Select at least {SHORTEST_STRIKE} characters: a shorter text would be struck out of words that
          merely contain it.
        </p>
      ) : (
        <Consequences words={words} reason={reason} onReason={setReason} />
      )}
      <p role="status" className="st-strike-asked">
        {isAsked ? 'There is no way back from here. Press once more to strike it out.' : ''}
      </p>
    </Dialog>
  )
}

interface ConsequencesProps {
  readonly words: string
  readonly reason: string
  readonly onReason: (reason: string) => void
}

function Consequences({ words, reason, onReason }: ConsequencesProps) {
  const count = usePlaces(words)
  return (
    <>
      <p role="status">{placesSentence(count)}</p>
      <ul className="st-strike-list">
        <li>
          It is taken out of every record of this lab, also out of earlier wordings, drafts and quotes. Its
          place and the fact stay.
        </li>
        <li>This has no undo.</li>
        <li>
          The database’s files on the disk may hold the bytes until the store is rewritten, which is offered
          afterwards; lab files exported before keep them.
        </li>
        <li>A secret that stood here has been seen by this machine: change it wherever it is used.</li>
      </ul>
      <TextInput
        label="Reason"
        hint="Kept beside the fact. Leave the secret itself out of it."
        value={reason}
        onChange={({ target }) => onReason(target.value)}
      />
    </>
  )
}

/** In how many texts the words stand now; null until that is counted. */
function usePlaces(words: string): number | null {
  const workspace = useWorkspace()
  const [found, setFound] = useState<{ readonly words: string; readonly count: number } | null>(null)
  useEffect(() => {
    let isOver = false
    void workspace
      .requireLab()
      .countPlaces(words)
      .then((count) => {
        if (!isOver) setFound({ words, count })
      })
    return () => {
      isOver = true
    }
  }, [workspace, words])
  return found?.words === words ? found.count : null
}

function placesSentence(count: number | null): string {
  if (count === null) return 'Counting where it stands …'
  if (count === 0) return 'It stands in no text as it is now. Earlier wordings may still hold it.'
  return count === 1 ? 'It stands in 1 text of this lab.' : `It stands in ${count} texts of this lab.`
}

function shortened(words: string): string {
  const half = MOST_SHOWN / 2
  return words.length <= MOST_SHOWN ? words : `${words.slice(0, half)} … ${words.slice(-half)}`
}
