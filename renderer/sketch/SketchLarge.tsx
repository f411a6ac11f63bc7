/** A diagram over the whole window. It goes as soon as the keyboard is led elsewhere, so that it never covers the composer. */
import { useEffect, useRef, useState } from 'react'
import { createPortal } from 'react-dom'
import type { Drawn } from '../../shared/sketch/drawn.ts'
import { useWorkspace } from '../store/useWorkspace.ts'
import { Button, Dialog } from '../ui/index.ts'
import { ExportIcon } from '../ui/icons.tsx'
import { saveSketch } from './acts.ts'
import { SketchDrawing, wordsOfDrawing } from './SketchDrawing.tsx'

export function SketchLarge({ drawn, onClose }: { readonly drawn: Drawn; readonly onClose: () => void }) {
  const workspace = useWorkspace()
  const around = useRef<HTMLDivElement>(null)
  const [isActual, setActual] = useState(false)
  useEffect(() => {
    const onFocus = ({ target }: FocusEvent): void => {
      if (target instanceof Node && !around.current?.contains(target)) onClose()
    }
    document.addEventListener('focusin', onFocus)
    return () => document.removeEventListener('focusin', onFocus)
  }, [onClose])
  return createPortal(
    // A press in here is none on what the diagram stands in, though React would tell it there.
    <div ref={around} className="st-sketch-large" onClick={(event) => event.stopPropagation()}>
      <Dialog
        title={drawn.title ?? drawn.kind}
        onClose={onClose}
        width="full"
        isOutside
        actions={
          <>
            <Button pressed={isActual} onClick={() => setActual(!isActual)}>
              Actual size
            </Button>
            <Button icon={ExportIcon} onClick={() => void saveSketch(workspace, drawn)}>
              Save as SVG
            </Button>
          </>
        }
      >
        <div role="img" aria-label={wordsOfDrawing(drawn)} tabIndex={0} className="st-sketch-stage">
          <SketchDrawing drawn={drawn} size={isActual ? 'actual' : 'fill'} />
        </div>
      </Dialog>
    </div>,
    document.body,
  )
}
