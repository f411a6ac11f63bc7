/** Puts a diagram to begin with into a text that is being written. */
import { sketchPatterns, toFence } from '../../shared/sketch/patterns.ts'
import { Button, Menu } from '../ui/index.ts'
import { SketchIcon } from '../ui/icons.tsx'

export interface SketchMenuProps {
  /** Puts a block of Markdown into the text, on lines of its own. */
  readonly onInsert: (block: string) => void
  readonly look?: 'plain' | 'quiet'
}

export function SketchMenu({ onInsert, look = 'quiet' }: SketchMenuProps) {
  return (
    <Menu
      label="Diagrams to begin with"
      lines={sketchPatterns.map(({ id, word, hint, text }) => ({
        id,
        word,
        hint,
        onChoose: () => onInsert(toFence(text)),
      }))}
      trigger={(attributes) => (
        <Button look={look} icon={SketchIcon} {...attributes}>
          Sketch…
        </Button>
      )}
    />
  )
}
