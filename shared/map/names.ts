/** What things of a map are called, and what is said of them beside the picture. */
import { plainWords } from '../markdown/words.ts'
import type { MapBand, MapGraph, MapKind, MapMatter, MapNode, MapThing } from './model.ts'

const MOST_CHARACTERS = 90

/** The name of a thing in one line. */
export function nameOfThing({ band, kind, title, words }: MapThing): string {
  const plain = band === 'sources' ? words : plainWords(words, MOST_CHARACTERS)
  const name = [title, plain].filter(Boolean).join(' ')
  return name === '' ? `${kindWords[kind]} without words` : name
}

export const kindWords: Readonly<Record<MapKind, string>> = {
  link: 'link without text',
  page: 'page',
  pdf: 'PDF',
  manual: 'manual page',
  markdown: 'Markdown',
  text: 'text',
  picture: 'picture',
  action: 'action',
  output: 'output',
  observation: 'observation',
  problem: 'problem',
  fix: 'fix',
  decision: 'decision',
  file: 'file',
  list: 'list',
  step: 'step',
  section: 'section',
  procedure: 'procedure',
  group: 'group',
}

export const bandWords: Readonly<Record<MapBand, string>> = {
  sources: 'Sources',
  journal: 'Journal',
  procedure: 'Procedure',
}

/** `1 link`, `3 links`. */
export const counted = (count: number, word: string): string => `${count} ${word}${count === 1 ? '' : 's'}`

/** All that the picture says of a sign, in words. */
export function describeNode(node: MapNode): string {
  const { kind, members, uses, unused, loose, isWithdrawn } = node
  const isGroup = kind === 'group'
  return [
    isGroup ? `group of ${members.length}` : kindWords[kind],
    uses === 0 ? (isGroup ? 'all unused' : 'unused') : counted(uses, 'link'),
    ...(isGroup && unused > 0 && uses > 0 ? [`${unused} unused`] : []),
    ...(loose > 0 ? [`${loose} loose`] : []),
    ...(isWithdrawn ? ['withdrawn'] : []),
  ].join(', ')
}

/** The whole map in two or three sentences. */
export function describeMap({ things, relations, outside }: MapMatter, graph: MapGraph): string {
  if (things.length === 0) return 'There is nothing to show.'
  const inBand = (band: MapBand): number => things.filter((thing) => thing.band === band).length
  const linked = new Set(relations.flatMap(({ newer, older }) => [newer, older]))
  const unused = things.filter(({ key }) => !linked.has(key)).length
  const loose = relations.filter(({ isLoose }) => isLoose).length
  const groups = graph.nodes.filter(({ kind }) => kind === 'group').length
  const rows = things.filter(({ kind }) => kind === 'step').length
  return [
    `${counted(inBand('sources'), 'source')}, ${inBand('journal')} ${inBand('journal') === 1 ? 'entry' : 'entries'} and ` +
      `${counted(rows, 'step')}, joined by ${counted(relations.length, 'link')}, ${loose} of them loose.`,
    `${counted(unused, 'thing')} ${unused === 1 ? 'is' : 'are'} unused.`,
    ...(groups > 0
      ? [`Drawn as ${graph.nodes.length} signs, ${groups} of them groups that can be opened.`]
      : []),
    ...(outside > 0
      ? [
          `${counted(outside, 'link')} to what is not in this project ${outside === 1 ? 'is' : 'are'} not drawn.`,
        ]
      : []),
  ].join(' ')
}
