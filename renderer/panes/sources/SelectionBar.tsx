import { Button, Menu } from '../../ui/index.ts'
import { CarryIcon, MoreIcon, StrikeOutIcon, TraceIcon } from '../../ui/icons.tsx'

export interface SelectionBarProps {
  readonly onCarry: () => void
  readonly onTrace: () => void
  readonly onStrike: () => void
}

/** What can be done with selected words, beside them. */
export function SelectionBar({ onCarry, onTrace, onStrike }: SelectionBarProps) {
  return (
    <div className="st-selection-bar" role="toolbar" aria-label="Selected words">
      <Button look="quiet" icon={CarryIcon} keys="Alt+C" onClick={onCarry}>
        Carry…
      </Button>
      <Menu
        label="Selected words"
        lines={[
          { id: 'trace', word: 'Trace', icon: TraceIcon, hint: 'Alt+T', onChoose: onTrace },
          { id: 'strike', word: 'Strike out…', icon: StrikeOutIcon, isDanger: true, onChoose: onStrike },
        ]}
        trigger={(attributes) => (
          <Button {...attributes} look="quiet" icon={MoreIcon} label="More for the selected words" />
        )}
      />
    </div>
  )
}
