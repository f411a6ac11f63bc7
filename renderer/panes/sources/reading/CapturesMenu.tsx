/** All captures of a source, to read an older one. */
import type { CaptureId } from '../../../../shared/lab/ids.ts'
import type { CaptureHead } from '../../../../shared/lab/model.ts'
import { Button, Menu } from '../../../ui/index.ts'
import { EarlierIcon } from '../../../ui/icons.tsx'
import { dayAndTimeOf } from '../rows.ts'
import { wayInWords } from './facts.ts'

export interface CapturesMenuProps {
  /** The newest first. */
  readonly captures: readonly CaptureHead[]
  readonly shown: CaptureId
  readonly onChoose: (id: CaptureId) => void
}

export function CapturesMenu({ captures, shown, onChoose }: CapturesMenuProps) {
  return (
    <Menu
      label="Captures"
      lines={captures.map((capture, at) => ({
        id: capture.id,
        word: `${dayAndTimeOf(capture.taken)}, ${wayInWords[capture.wayIn]}`,
        hint: at === 0 ? 'newest' : undefined,
        isChosen: capture.id === shown,
        onChoose: () => onChoose(capture.id),
      }))}
      trigger={(attributes) => (
        <Button {...attributes} look="quiet" icon={EarlierIcon}>
          {`Captures (${captures.length})`}
        </Button>
      )}
    />
  )
}
