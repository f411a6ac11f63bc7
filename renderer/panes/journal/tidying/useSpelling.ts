/** Which words of a text no dictionary has, and the lab's own list of words. */
import { useCallback, useEffect, useRef, useState } from 'react'
import type { SpelledWord } from '../../../../shared/journal/spelling/words.ts'
import { useWorkspace } from '../../../store/useWorkspace.ts'
import { addedWords } from '../../../workers/addedWords.ts'
import { LAB_WORDS, SpellingAsker, type Misspelt } from '../../../workers/spelling.ts'

export interface Spelling {
  readonly state: 'asking' | 'known' | 'broken'
  readonly misspelt: readonly Misspelt[]
  /** Leaves a word out for as long as the panel stands. */
  readonly ignore: (word: string) => void
  /** Adds a word to the lab's own words for good. */
  readonly add: (word: string) => void
}

export function useSpelling(words: readonly SpelledWord[]): Spelling {
  const workspace = useWorkspace()
  const asker = useRef<SpellingAsker | null>(null)
  const [found, setFound] = useState<Pick<Spelling, 'state' | 'misspelt'>>({ state: 'asking', misspelt: [] })
  const [ignored, setIgnored] = useState<ReadonlySet<string>>(new Set())
  // The dictionaries take tens of megabytes, so they go with the panel.
  useEffect(
    () => () => {
      asker.current?.close()
      asker.current = null
    },
    [],
  )
  useEffect(() => {
    let isOver = false
    asker.current ??= new SpellingAsker()
    const names = [...new Set(words.map(({ word }) => word))]
    asker.current.misspeltAmong(workspace.requireLab().id, names).then(
      (misspelt) => isOver || setFound({ state: 'known', misspelt }),
      (error: unknown) => {
        console.error(error)
        if (!isOver) setFound({ state: 'broken', misspelt: [] })
      },
    )
    return () => {
      isOver = true
    }
  }, [workspace, words])
  const ignore = useCallback((word: string) => setIgnored((before) => new Set(before).add(word)), [])
  const add = useCallback(
    (word: string) => {
      ignore(word)
      const lab = workspace.requireLab()
      void lab.findSetting(LAB_WORDS).then((kept) => {
        const all = new Set([...addedWords(kept), word])
        return lab.keepSetting(LAB_WORDS, [...all])
      })
    },
    [workspace, ignore],
  )
  return { ...found, misspelt: found.misspelt.filter(({ word }) => !ignored.has(word)), ignore, add }
}
