import type { EditorView } from '@codemirror/view'
import { useEffect, useRef, useState, type KeyboardEvent } from 'react'
import type { CaptureId } from '../../../shared/lab/ids.ts'
import type { Source } from '../../../shared/lab/model.ts'
import { pageIndexAt } from '../../../shared/sources/pages.ts'
import { openFind } from '../../editor/findPanel.ts'
import { useFullWidth } from '../../frame/index.ts'
import { useWorkspace } from '../../store/useWorkspace.ts'
import { Button, EmptyState } from '../../ui/index.ts'
import { BackIcon, SourceLinkIcon } from '../../ui/icons.tsx'
import { isAltLetter } from '../../ui/keys.ts'
import { StrikeOut } from '../StrikeOut.tsx'
import { isTypingOutside } from '../typing.ts'
import { carrySource, isCarryKey, traceSource } from './carryingSource.ts'
import { DifferenceView } from './reading/DifferenceView.tsx'
import { LinkPopover } from './reading/LinkPopover.tsx'
import { OriginalView } from './reading/OriginalView.tsx'
import { headingAt, type Heading } from './reading/outline.ts'
import { OutlinePanel } from './reading/OutlinePanel.tsx'
import { PageField } from './reading/PageField.tsx'
import { jumpTo, type PressedLink } from './reading/readerView.ts'
import { Tools, type ReadingView as View } from './reading/Tools.tsx'
import { ReadingHead } from './ReadingHead.tsx'
import { ReadingText, type TextSelection } from './ReadingText.tsx'
import { titleOf } from './rows.ts'
import type { Goal } from './useGoal.ts'
import { useReading, type Reading } from './useReading.ts'
import './reading/reading.css'
import './reading/text.css'
import './reading/difference.css'
import './reading/original.css'
import './reading/link.css'

export interface ReadingViewProps {
  readonly id: Source['id']
  /** Where to go in it; null where the source was opened from the list. */
  readonly goal: Goal | null
  readonly onBack: () => void
  readonly onPasteText: (link: Source) => void
}

/** A capture that the person chose, which counts until somebody asks for another place. */
interface Chosen {
  readonly goal: Goal | null
  readonly capture: CaptureId
}

/** One source, opened for reading. */
export function ReadingView({ id, goal, onBack, onPasteText }: ReadingViewProps) {
  const [chosen, setChosen] = useState<Chosen | null>(null)
  const isChosen = chosen !== null && chosen.goal === goal
  const state = useReading(id, isChosen ? chosen.capture : (goal?.capture ?? null))
  const [view, setView] = useState<{ readonly goal: Goal | null; readonly view: View }>({
    goal,
    view: 'text',
  })
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
          goal={isChosen ? null : goal}
          // Whoever is led to words of the text is to see them.
          view={view.goal === goal ? view.view : 'text'}
          onView={(next) => setView({ goal, view: next })}
          onCapture={(capture) => setChosen({ goal, capture })}
          onBack={onBack}
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
  readonly view: View
  readonly onView: (view: View) => void
  readonly onCapture: (id: CaptureId) => void
  readonly onBack: () => void
  readonly onPasteText: (link: Source) => void
}

/** What a person opened beside the text stays open from source to source, as long as the window lives. */
const kept = { isAboutOpen: false, isOutlineOpen: false }

function useKept(name: keyof typeof kept): [boolean, (next: boolean) => void] {
  const [isOpen, setOpen] = useState(kept[name])
  return [
    isOpen,
    (next) => {
      kept[name] = next
      setOpen(next)
    },
  ]
}

function Opened({ reading, goal, view, onView, onCapture, onBack, onPasteText }: OpenedProps) {
  const workspace = useWorkspace()
  const { source, capture, captures } = reading
  const [selection, setSelection] = useState<TextSelection | null>(null)
  const [striking, setStriking] = useState<string | null>(null)
  const [link, setLink] = useState<PressedLink | null>(null)
  const [headings, setHeadings] = useState<readonly Heading[]>([])
  const [place, setPlace] = useState(0)
  const [isAboutOpen, setAboutOpen] = useKept('isAboutOpen')
  const [isOutlineOpen, setOutlineOpen] = useKept('isOutlineOpen')
  const { isFull } = useFullWidth()
  const title = useRef<HTMLHeadingElement>(null)
  const inside = useRef<HTMLDivElement>(null)
  const editor = useRef<EditorView | null>(null)
  const possible: View = capture === null || (view === 'difference' && captures.length < 2) ? 'text' : view
  const shownView: View = possible === 'text' && capture?.text === '' ? 'original' : possible
  const isText = capture !== null && shownView === 'text'
  useEffect(() => {
    if (!isText && title.current && !isTypingOutside(title.current)) title.current.focus()
  }, [isText, goal])
  const carry = selection ? selection.carry : () => carrySource(workspace, source)
  const canOutline = isText && headings.length > 0
  const toggleOutline = () => {
    setOutlineOpen(!isOutlineOpen)
    if (isOutlineOpen) editor.current?.focus()
    else
      requestAnimationFrame(() =>
        inside.current?.querySelector<HTMLElement>('.st-outline [tabindex="0"]')?.focus(),
      )
  }
  const jump = (position: number) => {
    if (editor.current) jumpTo(editor.current, position)
  }
  const onKeyDown = (event: KeyboardEvent) => {
    if (event.defaultPrevented) return
    if (isCarryKey(event)) carry()
    else if (isAltLetter(event, 'T')) (selection?.trace ?? (() => traceSource(workspace, source)))()
    else if (isAltLetter(event, 'O') && canOutline) toggleOutline()
    else if (!isFindKey(event) || !editor.current || !openFind(editor.current)) return
    event.preventDefault()
    event.stopPropagation()
  }
  const pages = capture?.pages ?? []
  return (
    <div
      ref={inside}
      className={isFull ? 'st-reading-inside st-reading-inside--full' : 'st-reading-inside'}
      data-node={source.id}
      onKeyDown={onKeyDown}
    >
      <div className="st-reading-side">
        <ReadingHead
          reading={reading}
          titleRef={title}
          selection={selection}
          tools={
            capture ? (
              <Tools
                view={shownView}
                hasText={capture.text !== ''}
                canCompare={captures.length > 1}
                onView={onView}
                headings={headings.length}
                isOutlineOpen={isOutlineOpen && canOutline}
                onOutline={toggleOutline}
              />
            ) : null
          }
          isAboutOpen={isAboutOpen}
          onAbout={() => setAboutOpen(!isAboutOpen)}
          onBack={onBack}
          onCapture={onCapture}
          onLink={setLink}
          onStrike={setStriking}
        />
        {isText && pages.length > 0 ? (
          <PageField pages={pages} now={pageIndexAt(pages, place)} onGo={(page) => jump(page.start)} />
        ) : null}
        {canOutline && isOutlineOpen ? (
          <OutlinePanel
            headings={headings}
            now={headingAt(headings, place)}
            onJump={(heading) => jump(heading.from)}
            onClose={toggleOutline}
          />
        ) : null}
      </div>
      {capture === null ? (
        <NoText source={source} onPasteText={onPasteText} />
      ) : shownView === 'difference' ? (
        <DifferenceView captures={captures} shown={capture.id} />
      ) : shownView === 'original' ? (
        <OriginalView source={source} capture={capture} />
      ) : (
        <ReadingText
          source={source}
          capture={capture}
          goal={goal}
          onSelection={setSelection}
          onStrike={setStriking}
          onHeadings={setHeadings}
          onPlace={setPlace}
          onLink={setLink}
          editor={editor}
        />
      )}
      {link ? <LinkPopover link={link} from={source} onClose={() => setLink(null)} /> : null}
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
