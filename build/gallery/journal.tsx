import { useState } from 'react'
import type { EntryKind } from '../../shared/lab/model.ts'
import { Button, entryKindFaces, Kbd, KindTag, LinkBadge, SegmentedKinds } from '../../renderer/ui/index.ts'
import { CarryIcon, DragHandleIcon, MoreIcon } from '../../renderer/ui/icons.tsx'
import { entries, type MockEntry } from './mock.ts'

export function Journal({ chosen }: { readonly chosen: number }) {
  return (
    <ol className="st-log">
      <li className="st-log-day">
        <span className="st-log-day-name">Saturday, 14 November 2026</span>
        <span className="st-log-day-offset">UTC+01:00</span>
      </li>
      {entries.map((entry, place) => (
        <li key={place} data-end={`entry-${place}`}>
          <Entry entry={entry} isChosen={place === chosen} />
        </li>
      ))}
    </ol>
  )
}

function Entry({ entry, isChosen }: { readonly entry: MockEntry; readonly isChosen: boolean }) {
  const classes = ['st-entry', `st-entry--${entry.kind}`, `st-kind--${entry.kind}`]
  if (entry.older === true) classes.push('st-entry--older')
  if (isChosen) classes.push('st-entry--chosen')
  return (
    <article className={classes.join(' ')} aria-label={`${entryKindFaces[entry.kind].word}, ${entry.time}`}>
      <div className="st-entry-margin">
        <button type="button" className="st-handle" aria-label="Carry this entry">
          <DragHandleIcon />
        </button>
        <time className="st-entry-time" dateTime={`2026-11-14T${entry.time}:00+01:00`}>
          {entry.time}
        </time>
        <span className="st-entry-more">
          <Button look="quiet" icon={MoreIcon} label="More for this entry" />
        </span>
        <KindTag kind={entry.kind} />
      </div>
      <div className="st-entry-body">
        {entry.isCode === true ? (
          <div className="st-prose">
            <pre className={entry.kind === 'output' ? 'st-machine' : 'st-code'}>{entry.text}</pre>
          </div>
        ) : (
          <div className="st-prose">
            <p>{entry.text}</p>
          </div>
        )}
        <EntryFoot entry={entry} />
      </div>
    </article>
  )
}

function EntryFoot({ entry }: { readonly entry: MockEntry }) {
  if (entry.link === undefined && entry.cameOfIt === undefined) return null
  return (
    <div className="st-entry-foot">
      {entry.link === undefined ? null : (
        <span>
          <LinkBadge type={entry.link.type} /> {entry.link.words}
        </span>
      )}
      {entry.cameOfIt === undefined ? null : (
        <span>
          <CarryIcon size="0.9rem" /> {entry.cameOfIt}
        </span>
      )}
    </div>
  )
}

export function Composer() {
  const [kind, setKind] = useState<EntryKind>('action')
  return (
    <div className="st-composer">
      <SegmentedKinds value={kind} onChange={setKind} />
      <div
        className={`st-composer-text st-kind--${kind}`}
        contentEditable
        suppressContentEditableWarning
        role="textbox"
        aria-label="New entry"
      >
        systemctl start weather-logger
      </div>
      <div className="st-composer-foot">
        <span>Kept as you type. Alt+1 to 6: kind</span>
        <span className="st-button-row">
          <Kbd keys="Ctrl+Enter" />
          <Button look="strong">Add entry</Button>
        </span>
      </div>
    </div>
  )
}
