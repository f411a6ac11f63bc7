/** The keys of ribbons: all of them on and off, and walking along links. */
import { useEffect } from 'react'
import type { TraceDirection } from '../../shared/provenance/trace.ts'
import { useWorkspace } from '../store/useWorkspace.ts'
import type { Workspace } from '../store/workspace.ts'
import { isAltLetter } from '../ui/keys.ts'
import { goToEnd } from './going.ts'
import { indexOf } from './links.ts'
import { setRibbons, toggleAll } from './state.ts'
import { subjectOfFocus } from './subject.ts'
import { noTrail, walk, type Trail } from './walk.ts'
import { knownNow } from './watching.ts'
import { arrivalWords, endWords, goneWords, nowhere } from './words.ts'

/** L for links. */
export const ALL_KEYS = 'Alt+L'
export const BACK_KEYS = 'Alt+,'
export const FORWARD_KEYS = 'Alt+.'

export function useRibbonKeys(): void {
  const workspace = useWorkspace()
  useEffect(() => {
    const walker = new Walker(workspace)
    const onKey = (event: KeyboardEvent): void => {
      const direction = directionOf(event)
      const isToggle = isAltLetter(event, 'L')
      if ((!isToggle && !direction) || document.querySelector('dialog:modal')) return
      event.preventDefault()
      if (direction) void walker.go(direction)
      else toggleAll()
    }
    window.addEventListener('keydown', onKey, true)
    return () => window.removeEventListener('keydown', onKey, true)
  }, [workspace])
}

/** The comma and the full stop, wherever they stand on the keyboard; where Alt makes other signs of them, by their place. */
function directionOf({
  altKey,
  ctrlKey,
  metaKey,
  shiftKey,
  key,
  code,
}: KeyboardEvent): TraceDirection | null {
  if (!altKey || ctrlKey || metaKey || shiftKey) return null
  if (key === ',' || (key !== '.' && code === 'Comma')) return 'back'
  return key === '.' || code === 'Period' ? 'forward' : null
}

class Walker {
  private trail: Trail = noTrail
  /** What had the keyboard when the last hop was made. */
  private from: Element | null = null

  constructor(private readonly workspace: Workspace) {}

  async go(direction: TraceDirection): Promise<void> {
    const { view } = this.workspace.state
    const starts = this.findStarts()
    if (!view || !starts) return this.workspace.say('notice', nowhere)
    const links = { index: indexOf(view.links), states: view.states }
    const walked = walk(links, this.trail, starts, direction)
    if (!walked)
      return this.workspace.say('notice', endWords(direction, this.isAtSource(starts) ? 'source' : 'other'))
    this.from = document.activeElement
    const isThere = await goToEnd(this.workspace, walked.to.node, walked.to.ranges)
    if (!isThere) return this.workspace.say('notice', goneWords)
    this.trail = walked.trail
    setRibbons({ said: arrivalWords(this.workspace.requireView(), walked, direction) })
  }

  /** Where the keyboard is; as long as it is on its way, or stays with a text being typed, where the walk has come to. */
  private findStarts(): readonly string[] | null {
    const { activeElement } = document
    const { at } = this.trail
    if (at && activeElement === this.from) return [at.node.id]
    const known = knownNow(this.workspace)
    const subject = known && activeElement ? subjectOfFocus(activeElement, known) : null
    return subject?.nodes ?? null
  }

  private isAtSource(starts: readonly string[]): boolean {
    const { labSources } = this.workspace.state
    return starts.some((id) => labSources?.sources.has(id) || labSources?.heads.has(id))
  }
}
