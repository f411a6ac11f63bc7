import type { ReactNode } from 'react'
import { WarningIcon } from './icons.tsx'

export interface ErrorSentenceProps {
  /** What happened. */
  readonly happened: string
  /** What is safe. */
  readonly safe: string
  /** What to do. */
  readonly next: string
  /** A button that does it, if the program can. */
  readonly action?: ReactNode
}

/** An expected failure where it happened. It is read out at once (role alert). */
export function ErrorSentence({ happened, safe, next, action }: ErrorSentenceProps) {
  return (
    <div className="st-error" role="alert">
      <WarningIcon weight="fill" />
      <div className="st-error-words">
        <p>
          <strong>{happened}</strong> {safe}
        </p>
        <p>{next}</p>
        {action}
      </div>
    </div>
  )
}
