/**
 * What a word is found by. A technical word is kept whole and is split as well, from the outside in:
 *
 *     /etc/ssh/sshd_config    itself, /etc/ssh, /etc; etc, ssh, sshd_config, sshd, config
 *     root@gate.example.org   itself; root, gate.example.org, gate, example, org
 *     10.0.2.0/24             itself; 10.0.2.0, 10.0, 10.0.2
 *     --no-install-recommends itself; no-install-recommends, no, install, recommends
 *     foo_bar.service         itself; foo_bar, foo, bar, service
 */
import { toLower, withoutMarks } from './fold.ts'

export interface WordForm {
  /** Folded. */
  readonly form: string
  /** How many places behind the word's own it stands: 0 for the whole, 1 for what begins at its second part. */
  readonly at: number
  /** It stands for more than the word: a folder above the path, a series of versions. Not looked for in its place. */
  readonly isWider: boolean
}

export interface WordForms {
  /** The whole word first; each form once. */
  readonly forms: readonly WordForm[]
  /** How many places the word takes: the number of its smallest parts, at least 1. */
  readonly width: number
}

const simple = /^(?:[A-Z]?[a-z]+|[A-Z]+|\d+)$/
const outer = /[/@:,#\\]+/
const edges = /^[^\p{L}\p{N}]+|[^\p{L}\p{N}]+$/gu
const inner = /[^\p{L}\p{N}\p{M}.]+/u
const dots = /\.+/
const humps = /(?<=\p{Ll})(?=\p{Lu})|(?<=\p{L})(?=\p{N})|(?<=\p{N})(?=\p{L})/u
const number = /^\p{N}+$/u
const dottedNumber = /^v?(\d+(?:\.\d+)+)$/i
const unspaced = /^[\p{sc=Han}\p{sc=Hiragana}\p{sc=Katakana}ー]{3,}$/u
/** So many folders above a path lead to it. */
const MOST_FOLDERS = 8
/** A number torn out of a technical word says nothing by itself unless it is as long as a port or a year. */
const SHORTEST_NUMBER = 3

/** @param word as it stands in a text, without the punctuation around it */
export function toWordForms(word: string): WordForms {
  if (simple.test(word)) return { forms: [{ form: word.toLowerCase(), at: 0, isWider: false }], width: 1 }
  const whole = withoutMarks(word)
  const into = new Parts()
  into.add(toLower(whole), 0)
  for (const folder of foldersAbove(whole)) into.add(toLower(folder), 0, true)
  for (const piece of whole.split(outer)) splitPiece(piece.replace(edges, ''), into)
  return { forms: into.forms, width: Math.max(1, into.width) }
}

/** The forms under which a query looks for a word. */
export function toQueryForms(word: string): string[] {
  return toWordForms(word).forms.flatMap(({ form, isWider }) => (isWider ? [] : [form]))
}

class Parts {
  readonly forms: WordForm[] = []
  width = 0
  private readonly seen = new Set<string>()

  add(form: string, at: number, isWider = false): void {
    if (form === '' || this.seen.has(form)) return
    this.seen.add(form)
    this.forms.push({ form, at, isWider })
  }

  /** A part that has parts of its own, or stands for a dotted number's beginning. */
  addHere(form: string, isWider = false): void {
    this.add(toLower(form), this.width, isWider)
  }

  addSmallest(part: string): void {
    const says = number.test(part) ? part.length >= SHORTEST_NUMBER : part.length > 1
    if (says) this.addHere(part)
    this.width++
  }
}

/** `/etc/ssh` and `/etc` for `/etc/ssh/sshd_config`; none for what is no path from the root or a home folder. */
function foldersAbove(word: string): string[] {
  if (!/^(?:\/|~[^/]*\/)[^/]/.test(word)) return []
  const folders: string[] = []
  for (
    let end = word.lastIndexOf('/');
    end > 1 && folders.length < MOST_FOLDERS;
    end = word.lastIndexOf('/', end - 1)
  )
    folders.push(word.slice(0, end))
  return folders
}

function splitPiece(piece: string, into: Parts): void {
  if (piece === '') return
  const isVersioned = piece.split(inner).some((part) => dottedNumber.test(part))
  splitBy(isVersioned ? [inner, dots] : [dots, inner], piece, into)
}

/** Splits by the first of the separators, and the parts by the others; a part that is split itself is kept too. */
function splitBy([separator, ...others]: readonly RegExp[], piece: string, into: Parts): void {
  if (piece === '') return
  const dotted = dottedNumber.exec(piece)
  if (dotted) return addDotted(piece, dotted[1]!.split('.'), into)
  if (separator === undefined) return splitName(piece, into)
  const parts = piece.split(separator)
  if (parts.length > 1) into.addHere(piece)
  for (const part of parts) splitBy(others, part.replace(edges, ''), into)
}

/** A version or an address: its beginnings from two numbers on are looked for, its single numbers are not. */
function addDotted(piece: string, numbers: readonly string[], into: Parts): void {
  into.addHere(piece)
  into.addHere(numbers.join('.'))
  for (let count = 2; count < numbers.length; count++) into.addHere(numbers.slice(0, count).join('.'), true)
  into.width++
}

function splitName(name: string, into: Parts): void {
  const parts = name.split(humps)
  if (parts.length === 1) return unspaced.test(name) ? addPairs(name, into) : into.addSmallest(name)
  into.addHere(name)
  // `eth0` and `E212`: a number behind letters is not looked for alone.
  for (const part of parts) if (!number.test(part)) into.addSmallest(part)
}

/** Scripts without spaces between words are looked for by pairs of characters. */
function addPairs(name: string, into: Parts): void {
  into.addHere(name)
  const characters = [...name]
  for (let at = 1; at < characters.length; at++) into.addSmallest(characters[at - 1]! + characters[at]!)
}
