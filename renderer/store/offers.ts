/**
 * Acts of the program that can be found by their words. Whatever has a menu or a key offers its lines here as long as it is
 * on the screen, so that what is found is what can be done now.
 */
import { useEffect, useRef } from 'react'
import type { MenuItem, MenuLine } from '../ui/MenuList.tsx'

/** What some lines are about: 'The journal', 'Step 4'. */
export interface Offer {
  readonly about: string
  readonly lines: readonly MenuLine[]
}

/** An act that can be done now. */
export interface OfferedAct {
  /** Unlike that of any other act. */
  readonly id: string
  readonly about: string
  readonly item: MenuItem
}

type Ask = () => Offer | null

const asked = new Map<symbol, Ask>()

/** Offers acts until the returned function is called. @param ask made anew each time somebody looks; null for none now */
export function offerActs(ask: Ask): () => void {
  const key = Symbol('offer')
  asked.set(key, ask)
  return () => {
    asked.delete(key)
  }
}

/** Offers acts as long as the component is on the screen. */
export function useOffered(ask: Ask): void {
  const latest = useRef(ask)
  useEffect(() => {
    latest.current = ask
  })
  useEffect(() => offerActs(() => latest.current()), [])
}

/** All acts that can be done now, each once; what is only one choice among several and chosen already is none. */
export function actsOffered(): OfferedAct[] {
  const acts = new Map<string, OfferedAct>()
  for (const ask of asked.values()) {
    const offer = ask()
    for (const item of offer?.lines ?? []) {
      if (item.kind === 'heading' || item.kind === 'rule') continue
      if (item.disabledBecause !== undefined || item.isChosen) continue
      const id = `${offer!.about} ${item.id}`
      acts.set(id, { id, about: offer!.about, item })
    }
  }
  return [...acts.values()]
}
