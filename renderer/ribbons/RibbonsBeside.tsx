/** What ribbons need beside their picture: keys, who is followed, and a voice. */
import { useOffered } from '../store/offers.ts'
import { Button } from '../ui/index.ts'
import { RibbonsIcon } from '../ui/icons.tsx'
import { ALL_KEYS, useRibbonKeys } from './keys.ts'
import { toggleAll, useRibbons } from './state.ts'
import { useWatching } from './watching.ts'

/** Rendered beside the panes, after them. */
export function RibbonsBeside() {
  const said = useRibbons((state) => state.said)
  useWatching()
  useRibbonKeys()
  return (
    <div className="st-unseen" role="status">
      {said}
    </div>
  )
}

/** Shows the links of all that is in view. */
export function RibbonsButton() {
  const isAll = useRibbons((state) => state.isAll)
  useOffered(() => ({
    about: 'All panes',
    lines: [
      {
        id: 'ribbons',
        word: isAll ? 'Show no ribbons but of one thing' : 'Ribbons of all in view',
        icon: RibbonsIcon,
        hint: ALL_KEYS,
        onChoose: toggleAll,
      },
    ],
  }))
  return (
    <Button
      look="quiet"
      icon={RibbonsIcon}
      label="Links of all in view"
      keys={ALL_KEYS}
      pressed={isAll}
      onClick={toggleAll}
    />
  )
}
