/** The suggestions for one thing, asked for anew whenever something in the lab changed. Never waited for. */
import { useEffect, useState } from 'react'
import { useStore } from 'zustand'
import { nodeOf, tagsOf, type Tagged } from '../../../shared/lab/acts.ts'
import type { TaggedNode } from '../../../shared/lab/model.ts'
import { useWorkspace, useWorkspaceState } from '../../store/useWorkspace.ts'
import type { SuggestedTag } from '../../workers/tags.ts'
import { askerOf } from './asking.ts'

export interface Suggestions {
  readonly tags: readonly SuggestedTag[]
  /** 0 to 1 while the lab's tags are being learnt; null otherwise. */
  readonly learning: number | null
  readonly isBroken: boolean
  /** Takes a suggestion out of sight that was just answered; the next answer comes without it. */
  hide(tag: string): void
}

interface Answer {
  readonly tags: readonly SuggestedTag[]
  readonly isEarly: boolean
  readonly isBroken: boolean
  /** The last Change that the screen knew when it asked. */
  readonly sequence: number
}

const nothing: Answer = { tags: [], isEarly: false, isBroken: false, sequence: -1 }
const none: ReadonlyMap<string, number> = new Map()

export function useSuggestions(thing: Tagged): Suggestions {
  const workspace = useWorkspace()
  const asker = askerOf(workspace)
  const { share, times } = useStore(asker.learning)
  const sequence = useWorkspaceState((state) => state.labSources?.sequence ?? 0)
  const [answer, setAnswer] = useState(nothing)
  const [hidden, setHidden] = useState(none)
  const { kind, id } = nodeOf(thing)
  useEffect(() => {
    let isOver = false
    asker.suggest({ kind, id } as TaggedNode).then(
      ({ tags, isEarly }) => isOver || setAnswer({ tags, isEarly, isBroken: false, sequence }),
      () => isOver || setAnswer({ ...nothing, isBroken: true, sequence }),
    )
    return () => {
      isOver = true
    }
  }, [asker, kind, id, sequence, times])
  // What was struck out must not stand here until the next answer comes.
  useEffect(() => workspace.textsStruck.on(() => setAnswer(nothing)), [workspace])
  const has = tagsOf(thing)
  return {
    tags: answer.tags.filter(
      ({ tag }) => !has.includes(tag) && !(answer.sequence <= (hidden.get(tag) ?? -1)),
    ),
    learning: answer.isEarly ? share : null,
    isBroken: answer.isBroken,
    hide: (tag) => setHidden((before) => new Map(before).set(tag, sequence)),
  }
}
