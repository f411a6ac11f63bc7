/** Before a file leaves: what looks like a secret in it is shown, and the person decides. */
import { createStore } from 'zustand/vanilla'
import type { SecretFound } from '../../shared/safety/secrets/scan.ts'

/** A file that waits for the person's word. */
export interface Waiting {
  readonly found: readonly SecretFound[]
  /** What is about to leave, as the subject of a sentence: 'The Markdown file'. */
  readonly what: string
  readonly answer: (mayLeave: boolean) => void
}

export const leaving = createStore<{ readonly waiting: Waiting | null }>(() => ({ waiting: null }))

/**
 * Asks whether a file may leave; yes at once where nothing looks like a secret. A further question takes the place of one that
 * waits, which is then answered by no.
 */
export function mayLeave(found: readonly SecretFound[], what: string): Promise<boolean> {
  if (found.length === 0) return Promise.resolve(true)
  leaving.getState().waiting?.answer(false)
  return new Promise((resolve) => {
    const answer = (isYes: boolean): void => {
      leaving.setState({ waiting: null })
      resolve(isYes)
    }
    leaving.setState({ waiting: { found, what, answer } })
  })
}
