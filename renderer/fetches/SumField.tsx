/** The field for the SHA-256 of one thing. What is typed in it is kept as soon as it is one, and never lost before. */
import { useState } from 'react'
import { useStore } from 'zustand'
import type { ProcedureId } from '../../shared/lab/ids.ts'
import type { WantedFetch } from '../../shared/procedure/fetches/fetchList.ts'
import { readSum } from '../../shared/procedure/fetches/sum.ts'
import { fileNameOf, nameOfFetch } from '../../shared/procedure/fetches/written.ts'
import { useWorkspace } from '../store/useWorkspace.ts'
import { TextInput } from '../ui/index.ts'
import { noteSum } from './acts.ts'
import type { SumDrafts } from './sumDrafts.ts'

export interface SumFieldProps {
  readonly procedure: ProcedureId
  readonly item: WantedFetch
  readonly drafts: SumDrafts
  readonly focusesItself: boolean
}

export function SumField({ procedure, item, drafts, focusesItself }: SumFieldProps) {
  const workspace = useWorkspace()
  const draft = useStore(drafts.store, (texts) => texts[item.item])
  /** The file that the line was about which was pasted last. */
  const [named, setNamed] = useState<string | null>(null)
  const text = draft ?? item.record?.sha256 ?? ''
  const read = readSum(text)
  const keep = async (typed: string): Promise<void> => {
    const sum = readSum(typed)
    if (!sum.ok || !(await noteSum(workspace, procedure, item, sum.sha256))) return
    if (drafts.store.getState()[item.item] === typed) drafts.change(item.item, null)
  }
  const type = (typed: string): void => {
    drafts.change(item.item, typed)
    const sum = readSum(typed)
    setNamed(sum.ok ? sum.name : null)
    // A field that is emptied is perhaps about to be filled anew; that is kept when it is left.
    if (sum.ok && sum.sha256 !== null) void keep(typed)
  }
  return (
    <TextInput
      label={`SHA-256 of ${nameOfFetch(item)}`}
      hidesLabel
      isMono
      className="st-fetch-sum"
      autoComplete="off"
      autoFocus={focusesItself}
      spellCheck={false}
      placeholder="SHA-256, or its line of sha256sum"
      value={text}
      hint={wordsOfName(named, fileNameOf(item))}
      error={read.ok ? undefined : read.sentence}
      onChange={(event) => type(event.target.value)}
      onBlur={() => void (draft === undefined ? undefined : keep(draft))}
      onKeyDown={(event) => {
        if (event.key === 'Enter' && draft !== undefined) void keep(draft)
      }}
    />
  )
}

/** A line of sums that is about another file is perhaps the wrong one. */
function wordsOfName(named: string | null, known: string | null): string | undefined {
  const own = named?.split('/').at(-1)
  if (own === undefined || known === null || own === known) return undefined
  return `The line was about “${own}”, and this file is “${known}”. See whether it is the right line.`
}
