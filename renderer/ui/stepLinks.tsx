/** References to steps in rendered Markdown: shown with the number that the step has now, where whoever shows the text says so. */
import { createContext, useContext, type AnchorHTMLAttributes, type ReactNode } from 'react'

export interface StepLinks {
  /** What a reference reads as now, by the step's id and the words that were typed; and whether the step stands. */
  readonly wordsOf: (step: string, typed: string) => { readonly words: string; readonly isThere: boolean }
  readonly onGo: (step: string) => void
}

/** Null where references read as they were typed. */
export const StepLinksContext = createContext<StepLinks | null>(null)

type AnchorProps = AnchorHTMLAttributes<HTMLAnchorElement> & {
  readonly node?: unknown
  readonly 'data-step-named'?: string
  readonly 'data-step-from'?: string | number
  readonly 'data-step-to'?: string | number
}

/** A link of a text; one that names a step goes there. The node that it is made of is no attribute of it. */
export function MarkdownLink({ node: _, ...props }: AnchorProps) {
  const links = useContext(StepLinksContext)
  const step = props['data-step-named']
  if (step === undefined) return <a {...props} />
  const from = props['data-step-from']
  const to = props['data-step-to']
  const { words, isThere } = links?.wordsOf(step, textOf(props.children)) ?? {
    words: textOf(props.children),
    isThere: false,
  }
  // What is shown is not what was typed: a selection that touches it takes the whole reference.
  const shown = (
    <span data-from={from} data-to={to} data-whole="">
      {words}
    </span>
  )
  if (!links || !isThere) return <span className="step-link step-link--gone">{shown}</span>
  return (
    <button type="button" className="step-link" onClick={() => links.onGo(step)}>
      {shown}
    </button>
  )
}

function textOf(children: ReactNode): string {
  if (typeof children === 'string' || typeof children === 'number') return String(children)
  if (Array.isArray(children)) return children.map(textOf).join('')
  if (typeof children !== 'object' || children === null || !('props' in children)) return ''
  return textOf((children.props as { readonly children?: ReactNode }).children)
}
