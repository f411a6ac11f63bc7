/** What the list says about sources. Pure. */
import type { Folder, Project } from '../../../../shared/lab/model.ts'
import { sameAs, type SameSources } from '../../../../shared/sources/duplicates.ts'
import type { SourceFacts } from '../../../../shared/sources/facts.ts'
import type { SourceFilter, SourceFlag } from '../../../../shared/sources/filter.ts'
import type { SourceSort } from '../../../../shared/sources/sort.ts'
import { sourceKindFaces } from '../../../ui/kinds.ts'
import { datedWords, dayOf, titleOf } from '../rows.ts'

export const flagWords: Readonly<Record<SourceFlag, string>> = {
  pinned: 'Pinned',
  unused: 'Unused',
  'link without text': 'Link without text',
  'same as another': 'Same as another',
  'set aside': 'Set aside',
}

export const sortWords: Readonly<Record<SourceSort, string>> = {
  newest: 'Newest first',
  oldest: 'Oldest first',
  title: 'By title',
  'most used': 'Most used first',
  dated: 'By the document’s own date',
}

/** '1 source', '12 sources' */
export const countWords = (count: number): string =>
  `${count.toLocaleString('en')} ${count === 1 ? 'source' : 'sources'}`

/** The last line of a row: 'Page, added 14 Nov 2026, dated May 2024, 2 captures, 3 carried'. It breaks at its commas. */
export function factsWords({ source, uses, captures }: SourceFacts): string {
  const dated = source.dated === null ? [] : [`dated ${datedWords(source.dated)}`]
  return [
    sourceKindFaces[source.kind].word,
    `added ${dayOf(source.added)}`,
    ...dated,
    ...(captures > 1 ? [`${captures} captures`] : []),
    ...(uses > 0 ? [`${uses} carried`] : []),
    ...(source.setAside ? ['set aside'] : []),
  ]
    .map((part) => part.replaceAll(' ', '\u00a0'))
    .join(', ')
}

/** Why a row is taken for the same as others: 'Same address as “Fans”', 'Same content as 3 others'. */
export function sameWords(row: SourceFacts, group: SameSources): string {
  const { by, others } = sameAs(row, group)
  const [first, ...more] = others
  if (!first) return `Same as another of ${countWords(group.members.length)}`
  return `Same ${by} as ${more.length === 0 ? `“${titleOf(first.source)}”` : `${others.length} others`}`
}

/** What members of a group have in common, over them: '3 sources: same address'. */
export function groupWords({ members }: SameSources): string {
  const ways = new Set(members.map((row) => sameAs(row, { members }).by))
  return `${countWords(members.length)}: same ${[...ways].sort().join(' or ')}`
}

/** Where a source is used, said in a list that shows all of the lab: 'In Time and 2 more'; null where it is used here alone. */
export function whereWords(
  { source }: SourceFacts,
  open: string | undefined,
  projects: readonly Project[],
): string | null {
  if (source.projects.some((id) => id === open)) return null
  const [first, ...more] = source.projects.flatMap(
    (id) => projects.find((project) => project.id === id) ?? [],
  )
  if (!first) return 'In no project'
  return `In ${first.title}${more.length === 0 ? '' : ` and ${more.length} more`}`
}

/** '14 Nov 2026' of '2026-11-14'. */
export const wordsOfDay = (day: string): string => datedWords(day)

/** One condition of a filter that is set, with what the filter is without it. */
export interface SetChip {
  readonly key: string
  /** Of what sort it is, for those who hear it. */
  readonly sort: string
  readonly word: string
  readonly without: Partial<SourceFilter>
}

/** The conditions that are set, but for words and scope, which stand in their own places. */
export function chipsOf(
  filter: SourceFilter,
  pathOf: (id: Folder['id']) => readonly string[],
  projects: readonly Project[],
): SetChip[] {
  const { tags, folder, project, kinds, from, to, flags } = filter
  const chips: SetChip[] = tags.map((tag) => {
    return { key: `tag ${tag}`, sort: 'Tag', word: tag, without: { tags: tags.filter((one) => one !== tag) } }
  })
  if (folder !== null)
    chips.push({ key: 'folder', sort: 'Folder', word: pathOf(folder).join(' / '), without: { folder: null } })
  if (project !== null)
    chips.push({
      key: 'project',
      sort: 'Project',
      word: projectWords(project, projects),
      without: { project: null },
    })
  for (const kind of kinds)
    chips.push({
      key: `kind ${kind}`,
      sort: 'Kind',
      word: sourceKindFaces[kind].word,
      without: { kinds: kinds.filter((one) => one !== kind) },
    })
  if (from !== null)
    chips.push({ key: 'from', sort: 'Added', word: `from ${wordsOfDay(from)}`, without: { from: null } })
  if (to !== null)
    chips.push({ key: 'to', sort: 'Added', word: `until ${wordsOfDay(to)}`, without: { to: null } })
  for (const flag of flags)
    chips.push({
      key: `flag ${flag}`,
      sort: 'Only',
      word: flagWords[flag],
      without: { flags: flags.filter((one) => one !== flag) },
    })
  return chips
}

export function projectWords(
  project: NonNullable<SourceFilter['project']>,
  projects: readonly Project[],
): string {
  return project === 'none' ? 'No project' : (projects.find(({ id }) => id === project)?.title ?? '')
}
