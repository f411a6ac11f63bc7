/** How much speaks for each kind of prompt: its form, how often it recurs, and whether commands follow it. */
import { commandLikelihood } from '../../../shell/likely.ts'
import type { Candidate, Form } from './candidate.ts'
import type { Noted } from './noted.ts'

/** What was counted of one key. */
export interface Counts {
  /** Of all that share the key, the one that speaks for most. */
  form: Form
  readonly sign: string
  lines: number
  /** Lines with something behind the prompt, and the sum of how much that reads like a command. */
  filled: number
  likelihood: number
  readonly literals: Map<string, number>
  /** The lines above, by how they begin. */
  readonly heads: Map<string, number>
}

export type Clusters = ReadonlyMap<string, Counts>

const formScores: Record<Form, number> = { account: 4, folder: 2, name: 1.5, sign: 1.5, bare: 0.5, other: -1 }
/** What is kept of literals and heads that were seen once or rarely. */
const mostKept = 2000

/** Counts the candidates of lines, on top of what was counted before. Neither is changed. */
export function countClusters(noted: readonly Noted[], before: Clusters = new Map()): Clusters {
  const clusters = new Map<string, Counts>()
  for (const [key, counts] of before) {
    clusters.set(key, { ...counts, literals: new Map(counts.literals), heads: new Map(counts.heads) })
  }
  for (const line of noted) for (const candidate of line.candidates) count(clusters, candidate, line.before)
  return clusters
}

function count(clusters: Map<string, Counts>, candidate: Candidate, above: string): void {
  const { key, form, literal, rest } = candidate
  let counts = clusters.get(key)
  if (!counts) {
    const sign = literal.at(-1) ?? ''
    counts = { form, sign, lines: 0, filled: 0, likelihood: 0, literals: new Map(), heads: new Map() }
    clusters.set(key, counts)
  }
  if (formScores[form] > formScores[counts.form]) counts.form = form
  counts.lines++
  if (rest.trim() !== '') {
    counts.filled++
    counts.likelihood += Math.max(-2.5, Math.min(2.5, commandLikelihood(rest)))
  }
  add(counts.literals, literal)
  const head = headKey(above)
  if (head !== '') add(counts.heads, head)
}

function add(map: Map<string, number>, key: string): void {
  if (map.has(key) || map.size < mostKept) map.set(key, (map.get(key) ?? 0) + 1)
}

/**
 * The score of a key; from 2.5 on it is a prompt. The form's score (account 4, folder 2, name and rare sign 1.5, bare
 * 0.5, other -1; a bare `>`, which quotes, -1.5), up to 3 for lines whose prompt recurs (log2), the mean of how much
 * the lines read like commands (-2.5 to 2.5), and 3 for an upper line.
 */
export function scoreOf(clusters: Clusters, key: string): number {
  const counts = clusters.get(key)
  if (!counts) return -Infinity
  const recurring = [...counts.literals.values()].reduce((sum, times) => sum + (times > 1 ? times : 0), 0)
  const form = counts.form === 'bare' && counts.sign === '>' ? -1.5 : formScores[counts.form]
  const mean = counts.filled === 0 ? 0 : counts.likelihood / counts.filled
  return form + Math.min(3, Math.log2(recurring + 1)) + mean + (maybeHead(clusters, key) === null ? 0 : 3)
}

export const promptScore = 2.5

/** How the upper line of a two-line prompt begins, null where the lines above have nothing in common. */
export function maybeHead(clusters: Clusters, key: string): string | null {
  const counts = clusters.get(key)
  if (!counts || counts.lines < 2) return null
  const [best = null] = [...counts.heads].sort((a, b) => b[1] - a[1] || (a[0] < b[0] ? -1 : 1))
  return best !== null && best[1] >= 2 && best[1] >= counts.lines * 0.6 ? best[0] : null
}

const ornament = /[\u2500-\u259F]/u
const account = /[\w.-]+@[\w.-]+/u
const showsPlace = /(?:^|[\s:[({])(?:~|\/[\w.-])|(?:^|\s)[a-z_][\w.-]* (?:on|at) [\w.-]+(?: in |$)/u

/** How a line begins that may be the upper one of a prompt; empty where it cannot be. */
export function headKey(text: string): string {
  if (text.length > 200 || !(ornament.test(text[0] ?? '') || account.test(text) || showsPlace.test(text)))
    return ''
  // A prompt of one line is not the head of the next.
  if (/[$#%>❯➜λ»›] \S/u.test(text.replace(/\[[^\]]*\]/gu, ''))) return ''
  const found = account.exec(text)
  if (found) return leveled(text.slice(0, found.index)) + found[0]
  const [first = '', second = ''] = leveled(text).split(' ')
  return /[\p{L}]{2}/u.test(first) ? first : `${first} ${second}`
}

function leveled(text: string): string {
  return text
    .replace(/\d{1,2}:\d{2}(?::\d{2})?/gu, 't')
    .replace(/(^|[\s:[({])(?:~[^\s\])}]*|\/[^\s\])}]+)/gu, '$1p')
    .replace(/\d+/gu, 'n')
    .trimEnd()
}
