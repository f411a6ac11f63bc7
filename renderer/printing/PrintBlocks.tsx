/** Blocks of a text that read otherwise on paper: commands line by line, diagrams and pictures at once and without buttons. */
import { useLayoutEffect, useRef, type ComponentType, type ReactNode } from 'react'
import { toPlaceholder } from '../../shared/procedure/values/placeholders.ts'
import { usePicture } from '../panes/journal/pictures/usePicture.ts'
import { sentenceOf } from '../panes/journal/pictures/words.ts'
import { SketchDrawing, wordsOfDrawing } from '../sketch/SketchDrawing.tsx'
import { useSketch } from '../sketch/useSketch.ts'
import type { KeptPictureProps } from '../ui/blobs.tsx'
import type { FenceProps } from '../ui/fences.ts'
import { Placeholder } from '../ui/placeholders.tsx'
import { linesOf, piecesOf, signsOfRows, type WordPiece } from './lines.ts'

/** What is still being read or drawn carries this attribute; nothing is printed before it is gone. */
export const WAITING = 'data-print-waiting'

/** A block of commands or of what a machine answered. */
function PrintedLines({ source }: Pick<FenceProps, 'source'>): ReactNode {
  const block = useRef<HTMLPreElement>(null)
  useLayoutEffect(() => {
    if (block.current) markWraps(block.current)
  }, [source])
  return (
    <pre ref={block} className="st-print-lines">
      {linesOf(source).map((runs, i) => (
        <span key={i} className="st-print-line">
          {runs.length === 0 ? '\u200b' : null}
          {runs.map((run, j) =>
            run.kind === 'blanks' ? <span key={j}>{run.text}</span> : <Word key={j} pieces={run.pieces} />,
          )}
        </span>
      ))}
    </pre>
  )
}

function Word({ pieces }: { readonly pieces: readonly WordPiece[] }) {
  return <span className="st-print-word">{pieces.map(showPiece)}</span>
}

/** Words that are no Markdown: a title, a place, a path. */
export function Words({ text }: { readonly text: string }): ReactNode {
  return piecesOf(text).map(showPiece)
}

function showPiece(piece: WordPiece, i: number): ReactNode {
  if (piece.kind === 'text') return <span key={i}>{piece.text}</span>
  const whole = toPlaceholder(piece.name)
  return (
    <Placeholder key={i} value={piece.name}>
      <span>{whole.slice(0, 1)}</span>
      <span>{piece.name}</span>
      <span>{whole.slice(-1)}</span>
    </Placeholder>
  )
}

/** Says of each line at which rows it goes on. The style sheet cuts off what would be too much where paper differs. */
function markWraps(block: HTMLElement): void {
  const row = Number.parseFloat(getComputedStyle(block).lineHeight)
  const rowsOf = (height: number): number => Math.round(height / row)
  for (const line of block.querySelectorAll<HTMLElement>('.st-print-line')) {
    const { top, height } = line.getBoundingClientRect()
    if (rowsOf(height) < 2) continue
    const long = [...line.querySelectorAll('.st-print-word')].flatMap((word) => {
      const box = word.getBoundingClientRect()
      return rowsOf(box.height) < 2 ? [] : [{ first: rowsOf(box.top - top), rows: rowsOf(box.height) }]
    })
    line.dataset.wraps = signsOfRows(rowsOf(height), long).join('\n')
  }
}

function PrintedSketch({ source }: FenceProps): ReactNode {
  const result = useSketch(source, true)
  if (result === null) return <div {...{ [WAITING]: '' }} />
  if (!result.ok) return <PrintedLines source={source} />
  return (
    <figure className="st-print-figure" role="img" aria-label={wordsOfDrawing(result)}>
      <SketchDrawing drawn={result} size="fit" />
    </figure>
  )
}

const fences: Readonly<Record<string, ComponentType<FenceProps>>> = { mermaid: PrintedSketch }

/** Every language that is not drawn is shown line by line. */
export const printedFences: typeof fences = new Proxy(fences, {
  get: (drawn, language) => (Object.hasOwn(drawn, language) ? drawn[String(language)] : PrintedLines),
})

export function PrintedPicture({ sha256, description }: KeptPictureProps): ReactNode {
  const found = usePicture(sha256, true)
  if (found === null) return <span {...{ [WAITING]: '' }} />
  return (
    <span className="st-print-picture">
      {found.kind === 'picture' ? <img src={found.url} alt="" /> : <span>{sentenceOf(found.kind)}</span>}
      {description === '' ? null : <span className="st-print-facts">{description}</span>}
    </span>
  )
}
