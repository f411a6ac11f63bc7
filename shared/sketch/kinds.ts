/** The kinds of diagrams that are drawn, by the name that the library has for them, and what they are called here. */

const kinds: Readonly<Record<string, string>> = {
  'flowchart-v2': 'Flow chart',
  flowchart: 'Flow chart',
  graph: 'Flow chart',
  sequence: 'Sequence',
  mindmap: 'Mind map',
  state: 'States',
  stateDiagram: 'States',
  class: 'Classes',
  classDiagram: 'Classes',
  er: 'Relations of records',
  gantt: 'Time plan',
  pie: 'Shares',
  timeline: 'Timeline',
  gitGraph: 'Branches',
  block: 'Blocks',
  packet: 'Packet',
  requirement: 'Requirements',
  kanban: 'Columns',
  quadrantChart: 'Quadrants',
  xychart: 'Chart',
  journey: 'Journey',
  sankey: 'Flows',
}

/** What a kind is called; undefined for one that is not drawn here. */
export function maybeKindName(type: string): string | undefined {
  return Object.hasOwn(kinds, type) ? kinds[type] : undefined
}

/** A longer text is not drawn. UTF-16 code units. */
export const MAX_SKETCH_TEXT = 20_000
/** More lines between things are not drawn. */
export const MAX_SKETCH_EDGES = 400
/** More pieces in the finished drawing are not shown. */
export const MAX_SKETCH_PIECES = 12_000
