/** References from one step to another: what they read as, and the menu that puts them into a text. */
import { useMemo } from 'react'
import type { StepId } from '../../../shared/lab/ids.ts'
import { plainWords } from '../../../shared/markdown/words.ts'
import { rowNumbers } from '../../../shared/procedure/rows/numbers.ts'
import { stepLinkTo, wordsOfStepLink } from '../../../shared/procedure/rows/step-links.ts'
import { partsOfStep, stepsOf } from '../../store/view.ts'
import type { Workspace } from '../../store/workspace.ts'
import type { StepLinks } from '../../ui/stepLinks.tsx'
import type { MenuLine } from '../../ui/index.ts'
import type { Part } from '../../../shared/lab/model.ts'
import { setPane } from './paneStore.ts'
import { bringIntoView } from './bringing.ts'
import type { ShownProcedure } from './shown.ts'

/** What references in a procedure's texts read as now. The same as long as no number changes. */
export function useStepLinks({ steps }: ShownProcedure): StepLinks {
  const key = steps.map(({ step, number }) => `${step.id} ${number}`).join()
  return useMemo(() => {
    const numbers = new Map(key === '' ? [] : key.split(',').map((one) => one.split(' ') as [string, string]))
    return {
      wordsOf: (step, typed) => ({
        words: wordsOfStepLink(numbers.get(step), typed),
        isThere: numbers.has(step),
      }),
      onGo: (step) => goToStep(step as StepId),
    }
  }, [key])
}

/** What references in a part's text read as now. */
export function wordsOfStepIn(workspace: Workspace, part: Part): (step: string, typed: string) => string {
  return (step, typed) => {
    const numbers = rowNumbers(stepsOf(workspace.requireView(), part.procedure))
    return wordsOfStepLink(numbers.get(step as StepId), typed)
  }
}

function goToStep(id: StepId): void {
  setPane({ current: id, wanted: { kind: 'step', id } })
  bringIntoView(`[data-step="${id}"]`)
}

/** The other steps of a part's procedure, each with what puts a reference to it into the text. */
export function linesOfStepLinks(
  workspace: Workspace,
  part: Part,
  onInsert: (reference: string) => void,
): MenuLine[] {
  const view = workspace.requireView()
  const steps = stepsOf(view, part.procedure)
  const numbers = rowNumbers(steps)
  const others = steps.filter(({ id, level }) => level !== 'section' && id !== part.step)
  if (others.length === 0) return [{ kind: 'heading', id: 'none', word: 'There is no other step yet.' }]
  return others.map(({ id }) => {
    const own = partsOfStep(view, id)
    const main = own.get('do') ?? [...own.values()][0]
    const number = numbers.get(id)!
    return {
      id,
      word: `Step ${number}`,
      hint: plainWords((main && view.texts.get(main.id)) ?? '', 40),
      onChoose: () => onInsert(stepLinkTo(id, number)),
    }
  })
}
