/** The head of a caution: its signal word, by word, sign and colour; pressed, it offers the others. */
import { useRef, useState } from 'react'
import type { Part } from '../../../shared/lab/model.ts'
import { signalWordMeanings, type SignalWord } from '../../../shared/safety/signal-words/caution.ts'
import { useWorkspace } from '../../store/useWorkspace.ts'
import { MenuAt, type Box } from '../../ui/index.ts'
import { OpenIcon, PartCautionIcon } from '../../ui/icons.tsx'
import { linesOfSignal, signalIcons } from './cautions.ts'

interface CautionHeadProps {
  readonly part: Part
  readonly signal: SignalWord | null
  readonly tabIndex: number
}

/** The sign and the word of a caution. */
export function SignalFace({ signal }: { readonly signal: SignalWord | null }) {
  const Picture = signal ? signalIcons[signal] : PartCautionIcon
  return (
    <>
      <Picture weight="fill" />
      <span className="st-signal-word">
        {signal ? signalWordMeanings[signal].word : 'Caution without a signal word'}
      </span>
    </>
  )
}

export function CautionHead({ part, signal, tabIndex }: CautionHeadProps) {
  const workspace = useWorkspace()
  const [at, setAt] = useState<Box | null>(null)
  const wasOpen = useRef(false)
  return (
    <>
      <button
        type="button"
        className="st-signal"
        aria-haspopup="menu"
        aria-expanded={at !== null}
        tabIndex={tabIndex}
        onPointerDown={() => {
          wasOpen.current = at !== null
        }}
        onClick={(event) => {
          if (!wasOpen.current) setAt(event.currentTarget.getBoundingClientRect())
          wasOpen.current = false
        }}
      >
        <SignalFace signal={signal} />
        <OpenIcon size="0.8em" />
      </button>
      {at ? (
        <MenuAt
          label="Signal word"
          lines={linesOfSignal(workspace, part, signal)}
          at={at}
          onClose={() => setAt(null)}
        />
      ) : null}
    </>
  )
}
