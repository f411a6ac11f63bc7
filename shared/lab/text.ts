/**
 * Texts and how they change. A text is a string with `\n` line ends; it changes only by a ChangeSet of
 * @codemirror/state, kept as JSON. Positions are UTF-16 code units.
 */
import { ChangeSet, Text } from '@codemirror/state'
import type { ChangeSetJson, Range, Revision } from './model.ts'

/**
 * A text as it may be stored: line ends `\n`; U+0000 and lone surrogates replaced by U+FFFD
 * (CommonMark 0.31.2 §2.3 for the former; the latter have no UTF-8 form).
 */
export function toStorableText(text: string): string {
  return text
    .replace(/\r\n?/g, '\n')
    .replace(/\0/g, '\ufffd')
    .replace(/[\ud800-\udbff](?![\udc00-\udfff])|(?<![\ud800-\udbff])[\udc00-\udfff]/g, '\ufffd')
}

/** CodeMirror's form of a text. */
export function toLines(text: string): Text {
  return Text.of(text.split('\n'))
}

/** Reads a change set from its JSON form. @throws RangeError when the JSON is none */
export function toChangeSet(json: ChangeSetJson): ChangeSet {
  return ChangeSet.fromJSON(json)
}

/** The JSON form of a change set. */
export function toChangeSetJson(changes: ChangeSet): ChangeSetJson {
  return changes.toJSON() as ChangeSetJson
}

/** The change set that makes `text` out of nothing. */
export function insertingAll(text: string): ChangeSetJson {
  return replacing(0, { start: 0, end: 0 }, text)
}

/** The change set that deletes a whole text of that length. */
export function deletingAll(length: number): ChangeSetJson {
  return replacing(length, { start: 0, end: length }, '')
}

/** The change set that puts `insert` in the place of a range of a text of that length. */
export function replacing(length: number, range: Range, insert: string): ChangeSetJson {
  return toChangeSetJson(
    ChangeSet.of(
      { from: range.start, to: range.end, insert: insert === '' ? Text.empty : toLines(insert) },
      length,
    ),
  )
}

/**
 * The change set that puts the same words in the place of several ranges.
 * @param ranges in text order, not overlapping
 */
export function replacingEach(length: number, ranges: readonly Range[], insert: string): ChangeSetJson {
  const changes = ranges.map(({ start, end }) => ({ from: start, to: end, insert: toLines(insert) }))
  return toChangeSetJson(ChangeSet.of(changes, length))
}

/**
 * The smallest single replacement that turns one text into the other (common start and end left alone).
 * For editors that only tell the new text.
 */
export function changeBetween(from: string, to: string): ChangeSetJson {
  const most = Math.min(from.length, to.length)
  let start = 0
  while (start < most && from.charCodeAt(start) === to.charCodeAt(start)) start++
  let end = 0
  while (end < most - start && from.charCodeAt(from.length - 1 - end) === to.charCodeAt(to.length - 1 - end))
    end++
  // Half a surrogate pair must never be typed or brought back alone: it has no UTF-8 form.
  if (isInsidePair(from, start) || isInsidePair(to, start)) start--
  if (isInsidePair(from, from.length - end) || isInsidePair(to, to.length - end)) end--
  return replacing(from.length, { start, end: from.length - end }, to.slice(start, to.length - end))
}

/** Whether a place in a text lies between the two halves of a surrogate pair. */
export function isInsidePair(text: string, at: number): boolean {
  return /^[\ud800-\udbff][\udc00-\udfff]$/.test(text.slice(Math.max(0, at - 1), at + 1))
}

/** The text after a change set. @throws RangeError when it was made for a text of another length */
export function changeText(text: string, changeSet: ChangeSetJson): string {
  return toChangeSet(changeSet).apply(toLines(text)).toString()
}

/** The length that a text must have for this change set. */
export function lengthBefore(changeSet: ChangeSetJson): number {
  return changeSet.reduce<number>((sum, part) => sum + (typeof part === 'number' ? part : part[0]), 0)
}

/** Several change sets as one, in order. `length` is the text's before the first, needed where there is none. */
export function composeChangeSets(changeSets: readonly ChangeSetJson[], length: number): ChangeSet {
  return changeSets.reduce<ChangeSet>((sum, next) => sum.compose(toChangeSet(next)), ChangeSet.empty(length))
}

/** All that a change set inserts, in order of place. */
export function insertedBy(changeSet: ChangeSetJson): string {
  let all = ''
  toChangeSet(changeSet).iterChanges((_fromA, _toA, _fromB, _toB, inserted) => {
    all += inserted.toString()
  }, true)
  return all
}

/** The text after the last of a node's revisions, from the first on. An ended text is empty. */
export function foldText(revisions: readonly Revision[]): string {
  return revisions.reduce((text, revision) => changeText(text, revision.changeSet), '')
}

/** SHA-256 of the blobs that a Markdown text names by addresses of the form `sha256:<hex>`, each once, in order. */
export function blobsNamedIn(text: string): string[] {
  return [...new Set(Array.from(text.matchAll(/\bsha256:([0-9a-f]{64})\b/g), ([, sha256]) => sha256!))]
}
