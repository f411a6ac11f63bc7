/** All that a window shows while the store is rewritten: nothing can be typed then, so nothing is lost. */
import { useEffect, useState } from 'react'
import { Button, ProgressLine } from '../ui/index.ts'
import type { OnShare } from './rewriting.ts'
import './rewriting.css'

export interface RewritingScreenProps {
  readonly words: string
  /** Does the work; answers with a sentence where the person has to know something. */
  readonly work: (onShare: OnShare) => Promise<string | null>
  /** The button under that sentence. */
  readonly way: string
  readonly onWay: () => void
}

export function RewritingScreen({ words, work, way, onWay }: RewritingScreenProps) {
  const [share, setShare] = useState<number | null>(null)
  const [problem, setProblem] = useState<string | null>(null)
  useWorkOnce(() => work(setShare).then(setProblem))
  return (
    <main className="st-rewriting" aria-labelledby="st-rewriting-title">
      <h1 id="st-rewriting-title">The store is rewritten</h1>
      {problem === null ? (
        <>
          <ProgressLine words={words} share={share} />
          <p>The window comes back by itself. If the program ends meanwhile, start it again: it goes on.</p>
        </>
      ) : (
        <div className="st-rewriting-problem" role="alert">
          <p>{problem}</p>
          <Button onClick={onWay}>{way}</Button>
        </div>
      )}
    </main>
  )
}

/** Once, not at every drawing. */
function useWorkOnce(work: () => Promise<void>): void {
  const [first] = useState(() => work)
  useEffect(() => void first(), [first])
}
