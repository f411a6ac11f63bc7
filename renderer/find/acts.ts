/** Which acts of the program are meant by some words. Pure. */
import { fold } from '../../shared/find/index/fold.ts'
import type { OfferedAct } from '../store/offers.ts'

/** Words under which an act is looked for as well, by the id of its line: what it was called in its title or elsewhere. */
const alsoCalled: Readonly<Record<string, string>> = {
  coverage: 'coverage gaps lacking',
  seal: 'chain checksum hash',
  review: 'check rules findings',
  fetches: 'downloads packages network offline',
  provenance: 'prov origin',
  logs: 'follow session script record',
  map: 'bands overview drawing',
  draft: 'distil',
  versions: 'compare changes',
  out: 'backup export archive',
  in: 'restore import',
  theme: 'dark light colours',
  size: 'larger smaller bench font',
  ribbons: 'links',
  arrange: 'move',
  files: 'add import source',
  source: 'new page address pdf',
  export: 'markdown html hand over print pdf',
  keys: 'shortcuts keyboard help',
}

export interface FoundAct {
  readonly act: OfferedAct
  /** It is called so: its name, from one of its words on, or one of its other names begins with all that was typed. */
  readonly isCalledSo: boolean
}

/** The acts in whose names each of the words begins a word; those that are called so first, else in the order given. */
export function findActs(acts: readonly OfferedAct[], words: string): FoundAct[] {
  const wanted = wordsOf(words)
  if (wanted.length === 0) return []
  const found = acts.flatMap((act): FoundAct[] => {
    const { word, hint = '' } = act.item
    const names = [word, alsoCalled[act.item.id] ?? '']
    const all = wordsOf([...names, hint, act.about].join(' '))
    if (!wanted.every((one) => all.some((other) => other.startsWith(one)))) return []
    const begun = wanted.join(' ')
    const named = wordsOf(word)
    const starts = [
      ...named.map((_, at) => named.slice(at).join(' ')),
      ...wordsOf(alsoCalled[act.item.id] ?? ''),
    ]
    return [{ act, isCalledSo: starts.some((name) => name.startsWith(begun)) }]
  })
  return [...found.filter((one) => one.isCalledSo), ...found.filter((one) => !one.isCalledSo)]
}

function wordsOf(text: string): string[] {
  return fold(text)
    .split(/[^\p{L}\p{N}+]+/u)
    .filter((word) => word !== '')
}
