/** The ways to look at a source: its text, its original, what changed; with its outline, at full width. */
import { FULL_WIDTH_KEYS, useFullWidth } from '../../../frame/index.ts'
import { Button } from '../../../ui/index.ts'
import { NarrowIcon, OutlineIcon, WideIcon } from '../../../ui/icons.tsx'

export type ReadingView = 'text' | 'original' | 'difference'

export const OUTLINE_KEYS = 'Alt+O'

export interface ToolsProps {
  readonly view: ReadingView
  /** A picture has no text. */
  readonly hasText: boolean
  readonly canCompare: boolean
  readonly onView: (view: ReadingView) => void
  /** How many headings the text has. */
  readonly headings: number
  readonly isOutlineOpen: boolean
  readonly onOutline: () => void
}

export function Tools({ view, hasText, canCompare, onView, headings, isOutlineOpen, onOutline }: ToolsProps) {
  const { isFull, toggle } = useFullWidth()
  return (
    <div className="st-reading-tools" role="toolbar" aria-label="Ways to look at it">
      <div className="st-reading-views">
        {hasText ? (
          <Button look="quiet" pressed={view === 'text'} onClick={() => onView('text')}>
            Text
          </Button>
        ) : null}
        <Button look="quiet" pressed={view === 'original'} onClick={() => onView('original')}>
          Original
        </Button>
        {canCompare ? (
          <Button look="quiet" pressed={view === 'difference'} onClick={() => onView('difference')}>
            Changes
          </Button>
        ) : null}
      </div>
      <Button
        look="quiet"
        icon={OutlineIcon}
        label={headings === 0 ? 'Outline: this text has no headings' : `Outline, ${headings} headings`}
        keys={OUTLINE_KEYS}
        aria-expanded={isOutlineOpen}
        disabled={headings === 0 || view !== 'text'}
        onClick={onOutline}
      />
      <Button
        look="quiet"
        icon={isFull ? NarrowIcon : WideIcon}
        label={isFull ? 'Back to three panes' : 'Read at full width'}
        keys={FULL_WIDTH_KEYS}
        pressed={isFull}
        onClick={toggle}
      />
    </div>
  )
}
