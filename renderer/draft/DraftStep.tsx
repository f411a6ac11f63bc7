/** One proposed step, as it would stand. */
import { memo } from 'react'
import { wordsOfFile } from '../panes/journal/files/FileLine.tsx'
import { classOfPart } from '../panes/procedure/words.ts'
import { placeInWords } from '../../shared/procedure/rows/places.ts'
import { useWorkspaceState } from '../store/useWorkspace.ts'
import { PartLabel } from '../ui/index.ts'
import { PlaceIcon, UnknownIcon } from '../ui/icons.tsx'
import { Markdown } from '../ui/Markdown.tsx'
import type { DraftItem } from './model.ts'
import { doubtWords } from './words.ts'

interface DraftStepProps {
  readonly row: DraftItem
  /** From 1, among those that are proposed. */
  readonly number: number
  readonly isTicked: boolean
  readonly isCurrent: boolean
  readonly onFocus: () => void
  readonly onTick: () => void
}

export const DraftStep = memo(
  function DraftStep({ row, number, isTicked, isCurrent, onFocus, onTick }: DraftStepProps) {
    const machines = useWorkspaceState((state) => state.machines)
    const place = row.place ? placeInWords(row.place, machines) : ''
    return (
      <li
        className={`st-draft-row${isTicked ? ' st-draft-row--ticked' : ''}`}
        data-draft-row={row.id}
        tabIndex={isCurrent ? 0 : -1}
        aria-keyshortcuts="Space Enter Shift+Enter"
        onFocus={onFocus}
      >
        <label className="st-check">
          <input type="checkbox" checked={isTicked} tabIndex={isCurrent ? 0 : -1} onChange={onTick} />
          <span className="st-draft-name">Step {number}</span>
        </label>
        {place === '' ? null : (
          <p className="st-draft-fact">
            <PlaceIcon /> {place}
          </p>
        )}
        {row.doubt === null ? null : (
          <p className="st-draft-fact st-draft-doubt">
            <UnknownIcon /> {doubtWords[row.doubt]}
          </p>
        )}
        {row.parts.map(({ kind, text, file }) => (
          <div key={kind} className={classOfPart(kind)}>
            <div className="st-part-head">
              <PartLabel kind={kind} />
            </div>
            {file ? (
              <div className="st-file-line">
                <span className="st-file-path">{file.path}</span>
                <span className="st-file-facts">{wordsOfFile(file)}</span>
              </div>
            ) : null}
            <div className="st-part-text st-part-shown st-prose">
              <Markdown text={text} />
            </div>
          </div>
        ))}
      </li>
    )
  },
  (a, b) =>
    a.row === b.row && a.number === b.number && a.isTicked === b.isTicked && a.isCurrent === b.isCurrent,
)
