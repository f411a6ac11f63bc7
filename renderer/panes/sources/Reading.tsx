import type { EditorView } from '@codemirror/view'
import { useEffect, useRef, useState, type KeyboardEvent } from 'react'
import type { CaptureId } from '../../../shared/lab/ids.ts'
import type { Source } from '../../../shared/lab/model.ts'
import { openFind } from '../../editor/findPanel.ts'
import { useWorkspace } from '../../store/useWorkspace.ts'
import { Button, EmptyState } from '../../ui/index.ts'
import { BackIcon, SourceLinkIcon } from '../../ui/icons.tsx'
import { StrikeOut } from '../StrikeOut.tsx'
import { isTypingOutside } from '../typing.ts'
import { carrySource, isCarryKey } from './carryingSource.ts'
import { ReadingHead } from './ReadingHead.tsx'
import { ReadingText, type TextSelection } from './ReadingText.tsx'
import { titleOf } from './rows.ts'
import type { Goal } from './useGoal.ts'
import { useReading, type Reading } from './useReading.ts'

export interface ReadingViewProps {
  readonly id: Source['id']
  /** Where to go in it; null where the source was opened from the list. */
  readonly goal: Goal | null
  readonly onBack: () => void
  readonly onPasteText: (link: Source) => void
}

/** One source, opened for reading. */
export function ReadingView({ id, goal, onBack, onPasteText }: ReadingViewProps) {
  const [released, setReleased] = useState<Goal | null>(null)
  // The person may leave the capture that a trace led to for the newest one.
  const wanted: CaptureId | null = goal && goal !== released ? goal.capture : null
  const state = useReading(id, wanted)
  const onKeyDown = (event: KeyboardEvent) => {
    if (event.key !== 'Escape' || event.defaultPrevented) return
    event.preventDefault()
    onBack()
  }
  return (
    <div className="st-reading" onKeyDown={onKeyDown}>
      {state.kind === 'read' ? (
        <Opened
          key={state.reading.capture?.id ?? id}
          reading={state.reading}
          goal={goal}
          onBack={onBack}
          onNewest={() => setReleased(goal)}
          onPasteText={onPasteText}
        />
      ) : (
        <Closed isMissing={state.kind === 'missing'} onBack={onBack} />
      )}
    </div>
  )
}

function Closed({ isMissing, onBack }: { readonly isMissing: boolean; readonly onBack: () => void }) {
  return (
    <div className="st-reading-head">
      <div>
        <Button look="quiet" className="st-flush" icon={BackIcon} onClick={onBack}>
          All sources
        </Button>
      </div>
      <p role="status">{isMissing ? 'This source is not in the lab any more.' : 'Opening the source …'}</p>
    </div>
  )
}

interface OpenedProps {
  readonly reading: Reading
  readonly goal: Goal | null
  readonly onBack: () => void
  readonly onNewest: () => void
  readonly onPasteText: (link: Source) => void
}

function Opened({ reading, goal, onBack, onNewest, onPasteText }: OpenedProps) {
  const workspace = useWorkspace()
  const { source, capture } = reading
  const [selection, setSelection] = useState<TextSelection | null>(null)
  const [striking, setStriking] = useState<string | null>(null)
  const title = useRef<HTMLHeadingElement>(null)
  const isText = capture !== null
  useEffect(() => {
    if (!isText && title.current && !isTypingOutside(title.current)) title.current.focus()
  }, [isText, goal])
  const editor = useRef<EditorView | null>(null)
  const carry = selection ? selection.carry : () => carrySource(workspace, source)
  const onKeyDown = (event: KeyboardEvent) => {
    if (event.defaultPrevented) return
    if (isCarryKey(event)) carry()
    else if (!isFindKey(event) || !editor.current || !openFind(editor.current)) return
    event.preventDefault()
    event.stopPropagation()
  }
  return (
    <div className="st-reading-inside" data-node={source.id} onKeyDown={onKeyDown}>
      <ReadingHead
        reading={reading}
        titleRef={title}
        selection={selection}
        onBack={onBack}
        onNewest={onNewest}
        onStrike={setStriking}
      />
      {capture ? (
        <ReadingText
          source={source}
          capture={capture}
          goal={goal}
          onSelection={setSelection}
          onStrike={setStriking}
          editor={editor}
        />
      ) : (
        <NoText source={source} onPasteText={onPasteText} />
      )}
      {striking !== null && capture ? (
        <StrikeOut
          node={{ kind: 'capture', id: capture.id }}
          text={striking}
          onClose={() => setStriking(null)}
        />
      ) : null}
    </div>
  )
}

const isFindKey = ({ ctrlKey, metaKey, altKey, key }: KeyboardEvent): boolean =>
  (ctrlKey || metaKey) && !altKey && key.toLowerCase() === 'f'

function NoText({
  source,
  onPasteText,
}: {
  readonly source: Source
  readonly onPasteText: (link: Source) => void
}) {
  return (
    <EmptyState
      icon={SourceLinkIcon}
      purpose={`Only the address of “${titleOf(source)}” is kept, not its text.`}
      action={<Button onClick={() => onPasteText(source)}>Paste the text of this page</Button>}
      hint="Open it in a browser, copy what you need, and paste it: it becomes a source with this address."
    />
  )
}
