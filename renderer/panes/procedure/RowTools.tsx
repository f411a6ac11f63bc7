/** What stands in a row's margin: the handle that moves it, and its menu. */
import { useRef, useState } from 'react'
import { FindingsAt } from '../../review/index.ts'
import { useWorkspace } from '../../store/useWorkspace.ts'
import { MenuAt, type Box } from '../../ui/index.ts'
import { DragHandleIcon } from '../../ui/icons.tsx'
import { STEP_TYPE } from './landing.ts'
import { MenuButton } from './MenuButton.tsx'
import { setPane } from './paneStore.ts'
import { pickTo } from './picked.ts'
import type { ShownStep } from './shown.ts'
import { linesOfMoving, linesOfStep } from './stepLines.ts'

interface RowToolsProps {
  readonly shown: ShownStep
  /** As in a sentence: "step 3.1", "section “Boot disk”". */
  readonly name: string
  readonly tabIndex: number
}

export function RowTools({ shown, name, tabIndex }: RowToolsProps) {
  const workspace = useWorkspace()
  return (
    <span className="st-step-tools">
      <MoveHandle shown={shown} name={name} tabIndex={tabIndex} />
      <MenuButton
        label={`More for ${name}`}
        lines={() => linesOfStep(workspace, shown)}
        tabIndex={tabIndex}
      />
      <FindingsAt at={shown.step.id} name={name} tabIndex={tabIndex} />
    </span>
  )
}

/** Drags the row; pressed, it offers the same moves as a menu. */
function MoveHandle({ shown, name, tabIndex }: RowToolsProps) {
  const workspace = useWorkspace()
  const [at, setAt] = useState<Box | null>(null)
  const wasOpen = useRef(false)
  const { step } = shown
  return (
    <>
      <button
        type="button"
        className="st-handle"
        aria-label={`Move ${name}`}
        aria-haspopup="menu"
        aria-expanded={at !== null}
        tabIndex={tabIndex}
        draggable
        onPointerDown={() => {
          wasOpen.current = at !== null
        }}
        // The keyboard stays at the row where choosing began.
        onMouseDown={(event) => (event.shiftKey ? event.preventDefault() : undefined)}
        onClick={(event) => {
          if (event.shiftKey) pickTo(workspace, step)
          else if (!wasOpen.current) setAt(event.currentTarget.getBoundingClientRect())
          wasOpen.current = false
        }}
        onDragStart={(event) => {
          event.stopPropagation()
          event.dataTransfer.setData(STEP_TYPE, step.id)
          event.dataTransfer.effectAllowed = 'move'
          const whole = event.currentTarget.closest('li')
          if (whole) event.dataTransfer.setDragImage(whole, 20, 20)
          setTimeout(() => setPane({ moving: step.id }))
        }}
        onDragEnd={() => setPane({ moving: null })}
      >
        <DragHandleIcon />
      </button>
      {at ? (
        <MenuAt
          label={`Move ${name}`}
          lines={linesOfMoving(workspace, shown)}
          at={at}
          onClose={() => setAt(null)}
        />
      ) : null}
    </>
  )
}
