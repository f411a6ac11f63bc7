/** How much speaks for each kind of prompt: its form, how often it recurs, and whether commands follow it. */
import { commandLikelihood } from '../../../shell/likely.ts'
import type { Candidate, Form } from './candidate.ts'
import type { Noted } from './noted.ts'

/** What was counted of one key. */
interface Counts {
  /** Of all that share the key, the one that speaks for most. */
  form: Form
  readonly sign: string
  lines: number
  /** Lines with something behind the prompt, and the sum of how much that reads like a command. */
  filled: number
  likelihood: number
  /** Lines whose prompt, times and numbers aside, stood there before or stands there again. */
  recurring: number
  /** Lines in which a line editor was switched on. */
  edited: number
  readonly literals: Map<string, number>
  /** The lines above, by how they begin, and the beginning that most share. */
  readonly heads: Map<string, number>
  head: string | null
  /** Where lines end that have something far right of what was typed, and how far what was typed goes in them. */
  readonly edges: Map<number, Edge>
}

interface Edge {
  readonly typedTo: number
  /** Whether lines end there of which more and of which less was typed, so that no repetition explains it. */
  readonly isVaried: boolean
}

/** What follows for a key from all lines so far. */
export interface Verdict {
  readonly isPrompt: boolean
  /** Whether it may be the prompt of a shell that the last command led to. */
  readonly isPossible: boolean
  readonly isLone: boolean
  /** In how many lines a line editor was switched on, by powers of two. */
  readonly editedRank: number
  /** How the upper line of a two-line prompt begins, null where there is none. */
  readonly head: string | null
  /** How long lines are that end with a second prompt at the window's right edge. */
  readonly edges: readonly number[]
}

export type Verdicts = ReadonlyMap<string, Verdict>

export interface Clusters {
  readonly counts: ReadonlyMap<string, Counts>
  readonly verdicts: Verdicts
}

export const noClusters: Clusters = { counts: new Map(), verdicts: new Map() }

const formScores: Record<Form, number> = { account: 4, folder: 2, name: 1.5, sign: 1.5, bare: 0.5, other: -1 }
/** Where more keys, prompts of a key or upper lines come, those that came first are kept. */
const mostKeys = 2000
const mostKept = 200
const promptScore = 2.5
const possibleScore = 1
const unknown: Verdict = {
  isPrompt: false,
  isPossible: false,
  isLone: true,
  editedRank: 0,
  head: null,
  edges: [],
}

export const verdictOn = (verdicts: Verdicts, key: string): Verdict => verdicts.get(key) ?? unknown

/** Counts lines on top of what was counted before, which stays as it is. */
export class Counting {
  private readonly counts: Map<string, Counts>
  /** Keys whose counts are this one's own and may be changed. */
  private readonly own = new Set<string>()
  /** The same value as long as no verdict changes. */
  verdicts: Verdicts

  constructor(before: Clusters) {
    this.counts = new Map(before.counts)
    this.verdicts = before.verdicts
  }

  add(line: Noted): void {
    for (const candidate of line.candidates) {
      const counts = this.maybeOwn(candidate)
      if (!counts) continue
      count(counts, candidate, line.head)
      if (line.isEdited === true) counts.edited++
      const verdict = verdictFrom(counts)
      const { key } = candidate
      if (isSame(verdict, this.verdicts.get(key) ?? unknown)) continue
      this.verdicts = new Map(this.verdicts).set(key, verdict)
    }
  }

  private maybeOwn({ key, form, sign }: Candidate): Counts | null {
    const before = this.counts.get(key)
    if (before && this.own.has(key)) return before
    if (!before && this.counts.size >= mostKeys) return null
    const counts = before
      ? {
          ...before,
          literals: new Map(before.literals),
          heads: new Map(before.heads),
          edges: new Map(before.edges),
        }
      : fresh(form, sign)
    this.own.add(key)
    this.counts.set(key, counts)
    return counts
  }

  /** What is counted now. Nothing may be added after it. */
  end(): Clusters {
    return { counts: this.counts, verdicts: this.verdicts }
  }
}

function count(counts: Counts, candidate: Candidate, key: string): void {
  const { form, literal, length } = candidate
  const gap = gapIn(candidate.rest)
  const rest = gap === -1 ? candidate.rest : candidate.rest.slice(0, gap)
  if (gap !== -1) noteEdge(counts.edges, length + candidate.rest.length, rest.trimEnd().length)
  if (formScores[form] > formScores[counts.form]) counts.form = form
  counts.lines++
  if (rest.trim() !== '') {
    counts.filled++
    counts.likelihood += Math.max(-2.5, Math.min(2.5, commandLikelihood(rest)))
  }
  const times = add(counts.literals, literal)
  if (times > 1) counts.recurring += times === 2 ? 2 : 1
  if (key === '') return
  add(counts.heads, key)
  counts.head = better(counts.heads, counts.head, key)
}

/** Where the last wide gap of a line begins; -1 where there is none. */
export const gapIn = (text: string): number => {
  const last = text.lastIndexOf('   ')
  return last === -1 ? -1 : text.slice(0, last).trimEnd().length
}

function noteEdge(edges: Map<number, Edge>, end: number, typedTo: number): void {
  const known = edges.get(end)
  if (known) {
    if (known.typedTo !== typedTo) edges.set(end, { ...known, isVaried: true })
  } else if (edges.size < mostKept) edges.set(end, { typedTo, isVaried: false })
}

/** How often the key stands there now; 0 where there is no room for it. */
function add(map: Map<string, number>, key: string): number {
  const times = (map.get(key) ?? 0) + 1
  if (times === 1 && map.size >= mostKept) return 0
  map.set(key, times)
  return times
}

const fresh = (form: Form, sign: string): Counts => ({
  form,
  sign,
  lines: 0,
  filled: 0,
  likelihood: 0,
  recurring: 0,
  edited: 0,
  literals: new Map(),
  heads: new Map(),
  head: null,
  edges: new Map(),
})

/** Of two beginnings the one that more lines share; of equals the first by its characters. */
function better(heads: ReadonlyMap<string, number>, best: string | null, key: string): string {
  if (best === null || best === key) return key
  const [old, now] = [heads.get(best) ?? 0, heads.get(key) ?? 0]
  return now > old || (now === old && key < best) ? key : best
}

/**
 * The score of a key; from 2.5 on it is a prompt. The form's score (account 4, folder 2, name and rare sign 1.5, bare
 * 0.5, other -1; a bare `>`, which quotes, or a bare sign twice -1.5), up to 3 for lines whose prompt recurs (log2), the mean of how much
 * the lines read like commands (-2.5 to 2.5), and 3 for an upper line that most share.
 */
function verdictFrom(counts: Counts): Verdict {
  const { form, sign, lines, filled, likelihood, recurring } = counts
  const shared = counts.head === null ? 0 : (counts.heads.get(counts.head) ?? 0)
  const head = lines >= 2 && shared >= 2 && shared >= lines * 0.6 ? counts.head : null
  const own = form === 'bare' && (sign === '>' || sign.length > 1) ? -1.5 : formScores[form]
  const mean = filled === 0 ? 0 : likelihood / filled
  const edges = [...counts.edges].filter(([, { isVaried }]) => isVaried).map(([end]) => end)
  const score = own + Math.min(3, Math.log2(recurring + 1)) + mean + (head === null ? 0 : 3)
  return {
    isPrompt: score >= promptScore,
    isPossible: score >= possibleScore,
    isLone: lines < 2,
    editedRank: Math.floor(Math.log2(counts.edited + 1)),
    head,
    edges,
  }
}

function isSame(a: Verdict, b: Verdict): boolean {
  return (
    a.isPrompt === b.isPrompt &&
    a.isPossible === b.isPossible &&
    a.isLone === b.isLone &&
    a.editedRank === b.editedRank &&
    a.head === b.head &&
    a.edges.length === b.edges.length
  )
}
