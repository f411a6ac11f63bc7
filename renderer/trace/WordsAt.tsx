/** The words at one end of a link. */
import { Markdown } from '../ui/Markdown.tsx'

/** So much of a long text is shown; the rest is read where it stands. UTF-16 code units. */
const MOST_WORDS = 1500

interface WordsAtProps {
  /** What they are called; empty where that is clear. */
  readonly end: string
  readonly text: string
  /** They stood in a code fence. */
  readonly isCode?: boolean
}

/** The words at one end of a link, as they read. */
export function WordsAt({ end, text, isCode = false }: WordsAtProps) {
  return (
    <div className="st-trace-words">
      {end === '' ? null : <span className="st-trace-end">{end}</span>}
      {isCode ? <pre className="st-code">{shortened(text)}</pre> : <Markdown text={shortened(text)} />}
    </div>
  )
}

function shortened(text: string): string {
  return text.length <= MOST_WORDS ? text : `${text.slice(0, MOST_WORDS).trimEnd()} …`
}
