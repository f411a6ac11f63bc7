/** Something worked out of the open project by its worker, while a panel shows it. */
import { useCallback, useEffect, useRef, useState } from 'react'
import { ProjectAsker, type ProjectCall, type ProjectCalls } from '../workers/project.ts'
import { LatestAnswer, type AnswerState } from './latestAnswer.ts'
import { useWorkspace, useWorkspaceState } from './useWorkspace.ts'

/** So long nothing is asked after a Change: typing makes many. */
const REST_MS = 250

export interface ProjectAnswer<T> extends AnswerState<T> {
  /** The answer for the project as it stands now, with all that is being typed. @throws Error where it failed */
  readonly fresh: () => Promise<T>
}

type Answer<C extends ProjectCall> = ProjectCalls[C]['answer']

/** @param argument the same one from one drawing to the next as long as it says the same */
export function useProjectAnswer<C extends ProjectCall>(
  call: C,
  argument: ProjectCalls[C]['argument'],
): ProjectAnswer<Answer<C>> {
  const workspace = useWorkspace()
  const lab = useWorkspaceState((state) => state.lab?.id)
  const project = useWorkspaceState((state) => state.view?.project)
  const sequence = useWorkspaceState((state) => state.view?.sequence)
  const [state, setState] = useState<AnswerState<Answer<C>>>({ answered: null, hasFailed: false })
  const [asker, setAsker] = useState<ProjectAsker | null>(null)
  const latest = useRef<LatestAnswer<Answer<C>> | null>(null)
  useEffect(() => {
    if (!lab || !project) return undefined
    const made = new ProjectAsker(lab, project)
    setAsker(made)
    return () => {
      made.close()
      setAsker(null)
    }
  }, [lab, project])
  useEffect(() => {
    if (!asker) return undefined
    let isOver = false
    const own = new LatestAnswer<Answer<C>>(
      () => asker.ask(call, argument),
      (next) => {
        if (!isOver) setState(next)
      },
    )
    latest.current = own
    void own.upTo(0).catch((error: unknown) => console.error(error))
    const stopStruck = workspace.textsStruck.on(() => own.forget())
    return () => {
      isOver = true
      latest.current = null
      stopStruck()
    }
  }, [workspace, asker, call, argument])
  useEffect(() => {
    if (sequence === undefined) return undefined
    const timer = setTimeout(() => {
      void latest.current?.upTo(sequence).catch((error: unknown) => console.error(error))
    }, REST_MS)
    return () => clearTimeout(timer)
  }, [sequence, asker, call, argument])
  const fresh = useCallback(async () => {
    await workspace.flushTexts()
    if (!latest.current) throw new Error('the panel is closed')
    return latest.current.upTo(workspace.requireView().sequence)
  }, [workspace])
  return { ...state, fresh }
}
