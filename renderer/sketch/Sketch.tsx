/** A diagram where its text stands in Markdown: drawn, or as its text with the reason why it is not drawn. */
import { useId, useState, type ReactNode } from 'react'
import type { Drawn, SketchResult } from '../../shared/sketch/drawn.ts'
import { useWorkspace } from '../store/useWorkspace.ts'
import { Button } from '../ui/index.ts'
import { WarningIcon } from '../ui/icons.tsx'
import type { FenceProps } from '../ui/fences.ts'
import { copySketch, saveSketch } from './acts.ts'
import { SketchDrawing, wordsOfDrawing } from './SketchDrawing.tsx'
import { SketchLarge } from './SketchLarge.tsx'
import { useIsNear, useSketch } from './useSketch.ts'
import './sketch.css'

export function Sketch({ source, place, isMarked, children }: FenceProps) {
  const { ref, isNear } = useIsNear()
  const result = useSketch(source, isNear)
  const [isText, setText] = useState(false)
  const [isLarge, setLarge] = useState(false)
  const id = useId()
  if (result?.ok === false) return <BrokenSketch reason={result.reason}>{children}</BrokenSketch>
  return (
    <figure
      ref={ref}
      className={`st-sketch${isMarked ? ' st-sketch--marked' : ''}`}
      aria-label={`Diagram: ${result ? nameOf(result) : 'being drawn'}`}
      data-sketch={result ? 'drawn' : 'waiting'}
    >
      <div id={id} className="st-sketch-body">
        <Body result={result} isText={isText} source={source} place={place}>
          {children}
        </Body>
      </div>
      {result ? (
        <SketchFoot
          drawn={result}
          source={source}
          isText={isText}
          body={id}
          onText={() => setText(!isText)}
          onLarge={() => setLarge(true)}
        />
      ) : null}
      {result && isLarge ? <SketchLarge drawn={result} onClose={() => setLarge(false)} /> : null}
    </figure>
  )
}

const nameOf = ({ kind, title }: Drawn): string => (title === null ? kind : `${kind}, ${title}`)

interface BodyProps extends Pick<FenceProps, 'source' | 'place' | 'children'> {
  readonly result: SketchResult | null
  readonly isText: boolean
}

function Body({ result, isText, source, place, children }: BodyProps): ReactNode {
  if (isText) return children
  if (!result?.ok)
    return (
      <p className="st-sketch-wait" style={{ minHeight: `${likelyHeight(source)}rem` }} role="status">
        Drawing the diagram …
      </p>
    )
  return (
    <div
      role="img"
      aria-label={wordsOfDrawing(result)}
      className="st-sketch-picture"
      // What is selected in a drawing stands for its whole text; see Markdown.tsx.
      data-from={place.start}
      data-to={place.end}
      data-whole=""
    >
      <SketchDrawing drawn={result} size="fit" />
    </div>
  )
}

/** About as high as most drawings of so many lines, so that little moves when the drawing comes. rem. */
function likelyHeight(source: string): number {
  return Math.min(24, 4 + 1.6 * source.split('\n').length)
}

interface SketchFootProps {
  readonly drawn: Drawn
  readonly source: string
  readonly isText: boolean
  readonly body: string
  readonly onText: () => void
  readonly onLarge: () => void
}

function SketchFoot({ drawn, source, isText, body, onText, onLarge }: SketchFootProps) {
  const workspace = useWorkspace()
  return (
    <figcaption className="st-sketch-foot">
      <span className="st-sketch-kind">{nameOf(drawn)}</span>
      <span className="st-sketch-acts">
        <Button look="quiet" pressed={isText} aria-controls={body} onClick={onText}>
          As text
        </Button>
        <Button look="quiet" onClick={onLarge}>
          Open large
        </Button>
        <Button look="quiet" onClick={() => void saveSketch(workspace, drawn)}>
          Save as SVG
        </Button>
        <Button look="quiet" onClick={() => void copySketch(workspace, source)}>
          Copy
        </Button>
      </span>
    </figcaption>
  )
}

function BrokenSketch({ reason, children }: { readonly reason: string; readonly children: ReactNode }) {
  return (
    <figure
      className="st-sketch st-sketch--broken"
      aria-label="Diagram that could not be drawn"
      data-sketch="broken"
    >
      {children}
      <figcaption className="st-sketch-reason">
        <WarningIcon />
        <span>Not drawn. {reason}</span>
      </figcaption>
    </figure>
  )
}
