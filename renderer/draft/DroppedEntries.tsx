/** What no step is made of, folded below, each with the reason. */
import { useId, useState } from 'react'
import { momentOf } from '../../shared/journal/entry-facts.ts'
import { plainWords } from '../../shared/markdown/words.ts'
import { dropSentences } from '../../shared/procedure/draft/dropped.ts'
import type { ProjectView } from '../store/view.ts'
import { useWorkspace } from '../store/useWorkspace.ts'
import { Button } from '../ui/index.ts'
import { ClosedIcon, JournalIcon, OpenIcon } from '../ui/icons.tsx'
import type { DroppedItem } from './model.ts'

interface DroppedEntriesProps {
  readonly view: ProjectView
  readonly dropped: readonly DroppedItem[]
}

const STRIDE = 40
const MOST_WORDS = 160

export function DroppedEntries({ view, dropped }: DroppedEntriesProps) {
  const [isOpen, setOpen] = useState(false)
  const [most, setMost] = useState(STRIDE)
  const id = useId()
  if (dropped.length === 0) return null
  return (
    <section className="st-dropped-part" aria-label="What no step is made of">
      <Button
        look="quiet"
        icon={isOpen ? OpenIcon : ClosedIcon}
        className="st-flush"
        aria-expanded={isOpen}
        aria-controls={id}
        onClick={() => setOpen(!isOpen)}
      >
        {`Not drafted, ${dropped.length}`}
      </Button>
      <div id={id} hidden={!isOpen}>
        {isOpen ? (
          <ol className="st-dropped-list">
            {dropped.slice(0, most).map((one) => (
              <DroppedRow key={one.id} view={view} dropped={one} />
            ))}
          </ol>
        ) : null}
        {dropped.length > most ? (
          <Button look="quiet" className="st-flush" onClick={() => setMost(most + STRIDE)}>
            {`Show ${Math.min(STRIDE, dropped.length - most)} more`}
          </Button>
        ) : null}
      </div>
    </section>
  )
}

function DroppedRow({
  view,
  dropped: { entry: id, text, reason },
}: {
  readonly view: ProjectView
  readonly dropped: DroppedItem
}) {
  const workspace = useWorkspace()
  const entry = view.entries.get(id)
  if (!entry) return null
  const moment = momentOf(entry, view.marks.get(id))
  return (
    <li className="st-dropped-row">
      <div>
        <p className="st-draft-fact">
          {moment.slice(0, 10)} {moment.slice(11, 16)}. {dropSentences[reason]}
        </p>
        <p className="st-dropped-words">
          {text === '' ? plainWords(view.texts.get(id) ?? '', MOST_WORDS) : <code>{text}</code>}
        </p>
      </div>
      <Button
        look="quiet"
        icon={JournalIcon}
        label="Show it in the journal"
        onClick={() => workspace.goTo({ kind: 'entry', id })}
      />
    </li>
  )
}
