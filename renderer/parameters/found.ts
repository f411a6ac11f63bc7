/** The parameter that a person went to by finding it, in this window only. Created without React. */
import { useEffect, type RefObject } from 'react'
import { create } from 'zustand'
import type { ParameterId } from '../../shared/lab/ids.ts'
import { useWorkspaceState } from '../store/useWorkspace.ts'
import type { Workspace } from '../store/workspace.ts'

interface FoundParameter {
  readonly parameter: ParameterId
  /** To be marked, as they are written. */
  readonly words: readonly string[]
  /** Where the person had gone to last before: once they go on, nothing is marked here. */
  readonly after: number
}

const useFound = create<{ readonly found: FoundParameter | null }>(() => ({ found: null }))
const none: readonly string[] = []

/** Marks words of a parameter of the shown procedure, brings it into view and the keyboard to it. */
export function showFoundParameter(
  workspace: Workspace,
  parameter: ParameterId,
  words: readonly string[],
): void {
  useFound.setState({ found: { parameter, words, after: workspace.state.focus?.serial ?? 0 } })
}

/**
 * The words to mark in a parameter's line; empty for one that nobody went to.
 * @param line where it is drawn; its first button takes the keyboard
 */
export function useFoundWords(
  parameter: ParameterId,
  line: RefObject<HTMLElement | null>,
): readonly string[] {
  const serial = useWorkspaceState((state) => state.focus?.serial ?? 0)
  const found = useFound((state) => (state.found?.parameter === parameter ? state.found : null))
  useEffect(() => {
    if (!found) return
    line.current?.scrollIntoView({ block: 'center' })
    line.current?.querySelector('button')?.focus({ preventScroll: true })
  }, [found, line])
  return found?.after === serial ? found.words : none
}
