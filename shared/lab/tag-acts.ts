/** Tags on sources, entries and projects, and what a person said of tags that were suggested. */
import type { Act, Change, Operation } from './change.ts'
import { makeChange, put, type Surroundings } from './making.ts'
import type { Entry, EntryTags, Project, Source, TaggedNode, Verdict } from './model.ts'

/** A tag has at most so many UTF-16 code units. */
export const longestTag = 80

/** A tag as it is kept: one line, without white space around it; empty where nothing is left. */
export function toTag(words: string): string {
  const line = words
    .normalize('NFC')
    .replace(/[\s\p{Cc}]+/gu, ' ')
    .trim()
  return line.slice(0, longestTag).trim()
}

/** Tags that were typed into one field, with commas between them; each once. */
export function toTags(words: string): readonly string[] {
  return [...new Set(words.split(',').map(toTag))].filter((tag) => tag !== '')
}

/** Something that carries tags, as it stands. */
export type Tagged =
  | { readonly kind: 'source'; readonly record: Source }
  | { readonly kind: 'project'; readonly record: Project }
  | { readonly kind: 'entry'; readonly record: Entry; readonly tags: EntryTags | null }

export function tagsOf(thing: Tagged): readonly string[] {
  return thing.kind === 'entry' ? (thing.tags?.tags ?? []) : thing.record.tags
}

export function nodeOf({ kind, record }: Tagged): TaggedNode {
  return { kind, id: record.id } as TaggedNode
}

/** Gives a thing these tags in place of those that it has. An entry itself stays as it is. */
export function changeTags(around: Surroundings, thing: Tagged, tags: readonly string[]): Change {
  return makeChange(around, actOf[thing.kind], [putTags(thing, tags)])
}

const actOf: Readonly<Record<Tagged['kind'], Act>> = {
  source: 'change a source',
  project: 'change a project',
  entry: 'tag an entry',
}

function putTags(thing: Tagged, tags: readonly string[]): Operation {
  switch (thing.kind) {
    case 'source':
      return put('sources', { ...thing.record, tags }, thing.record)
    case 'project':
      return put('projects', { ...thing.record, tags }, thing.record)
    case 'entry':
      // Seen as none where none were seen, so that tags that another window gave meanwhile stay.
      return put(
        'entryTags',
        { entry: thing.record.id, tags },
        thing.tags ?? { entry: thing.record.id, tags: [] },
      )
  }
}

/**
 * Takes a suggested tag, or refuses it. Both are remembered, so that later suggestions are better.
 * @param chance the score with which it was suggested, 0 to 1
 */
export function judgeTag(
  around: Surroundings,
  thing: Tagged,
  tag: string,
  isAccepted: boolean,
  chance: number,
): Change {
  const verdict: Verdict = {
    id: around.ids.make(),
    node: nodeOf(thing),
    tag,
    isAccepted,
    chance,
    moment: around.clock.now(),
  }
  const tags = tagsOf(thing)
  const taking = isAccepted && !tags.includes(tag) ? [putTags(thing, [...tags, tag])] : []
  return makeChange(around, isAccepted ? 'accept a tag' : 'refuse a tag', [
    ...taking,
    put('verdicts', verdict),
  ])
}
