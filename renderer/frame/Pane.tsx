import { useId } from 'react'
import { Button } from '../ui/Button.tsx'
import { FoldLeftIcon, FoldRightIcon, JournalIcon, ProcedureIcon, SourcesIcon } from '../ui/icons.tsx'
import type { Band } from './layout.ts'
import type { PaneContent } from './content.ts'

const bandIcons = { sources: SourcesIcon, journal: JournalIcon, procedure: ProcedureIcon } as const

export interface PaneProps {
  readonly band: Band
  readonly content: PaneContent
  /** null when the pane is the last open one. */
  readonly onFold: (() => void) | null
}

/** One pane: head, body that scrolls, foot that stays. */
export function Pane({ band, content, onFold }: PaneProps) {
  const id = useId()
  return (
    <section className={`st-pane st-pane--${band}`} aria-labelledby={id} data-band={band}>
      <PaneHead id={id} band={band} content={content} onFold={onFold} />
      <div className={content.scrollsItself === true ? 'st-pane-body' : 'st-pane-body st-scroll'}>
        {content.body}
      </div>
      {content.foot === undefined ? null : <div className="st-pane-foot">{content.foot}</div>}
    </section>
  )
}

function PaneHead({ id, band, content, onFold }: PaneProps & { readonly id: string }) {
  const Picture = bandIcons[band]
  const FoldPicture = band === 'procedure' ? FoldRightIcon : FoldLeftIcon
  return (
    <header className="st-pane-head">
      <Picture className="st-pane-picture" />
      <h2 id={id} className="st-pane-title">
        {content.title}
      </h2>
      {content.count === undefined ? null : (
        <span className="st-pane-count">
          <span aria-hidden="true">{content.count}</span>
          <span className="st-unseen">{content.countWords ?? String(content.count)}</span>
        </span>
      )}
      <div className="st-pane-actions">
        {content.actions}
        {onFold === null ? null : (
          <Button
            look="quiet"
            icon={FoldPicture}
            label={`Fold ${content.title.toLowerCase()}`}
            data-fold
            onClick={onFold}
          />
        )}
      </div>
    </header>
  )
}

export interface SpineProps {
  readonly band: Band
  readonly content: PaneContent
  readonly onUnfold: () => void
}

/** A folded pane: one tall button with its name and count, that unfolds it. */
export function Spine({ band, content, onUnfold }: SpineProps) {
  const Picture = bandIcons[band]
  const counted = content.countWords ?? (content.count === undefined ? '' : String(content.count))
  return (
    <section
      className={`st-pane st-pane--${band} st-pane--folded`}
      aria-label={content.title}
      data-band={band}
    >
      <button
        type="button"
        className="st-spine"
        data-fold
        aria-expanded={false}
        aria-label={counted === '' ? `Unfold ${content.title}` : `Unfold ${content.title}, ${counted}`}
        onClick={onUnfold}
      >
        <Picture />
        <span className="st-spine-title">{content.title}</span>{' '}
        {content.count === undefined ? null : <span className="st-spine-count">{content.count}</span>}
      </button>
    </section>
  )
}
