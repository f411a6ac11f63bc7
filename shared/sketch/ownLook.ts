/** The face of a diagram: what the library is told of colours, and rules of our own that come after its own. */
import { fills, lines, standIn, type Token } from './palette.ts'
import { rulesOf, type Rule } from './css.ts'

const ink = standIn('--ink')
const soft = standIn('--ink-soft')
const edge = standIn('--rule-strong')
const raised = standIn('--paper-raised')
const paper = standIn('--paper')
const group = standIn('--sketch-group')
const note = standIn('--mark-derives')

const numbered = (name: string, count: number, pick: readonly Token[], from = 0): Record<string, string> =>
  Object.fromEntries(
    Array.from({ length: count }, (_, i) => [`${name}${i + from}`, standIn(pick[i % pick.length]!)]),
  )
const alike = (name: string, count: number, colour: string, from = 0): Record<string, string> =>
  Object.fromEntries(Array.from({ length: count }, (_, i) => [`${name}${i + from}`, colour]))

/** The library's theme variables; every colour stands for a token. */
export const themeVariables: Readonly<Record<string, unknown>> = {
  background: paper,
  primaryColor: raised,
  primaryTextColor: ink,
  primaryBorderColor: edge,
  secondaryColor: group,
  secondaryTextColor: ink,
  secondaryBorderColor: edge,
  tertiaryColor: group,
  tertiaryTextColor: ink,
  tertiaryBorderColor: edge,
  lineColor: soft,
  arrowheadColor: soft,
  textColor: ink,
  titleColor: ink,
  mainBkg: raised,
  nodeBkg: raised,
  nodeBorder: edge,
  nodeTextColor: ink,
  clusterBkg: group,
  clusterBorder: edge,
  edgeLabelBackground: paper,
  actorBkg: raised,
  actorBorder: edge,
  actorTextColor: ink,
  actorLineColor: edge,
  signalColor: soft,
  signalTextColor: ink,
  labelBoxBkgColor: raised,
  labelBoxBorderColor: edge,
  labelTextColor: ink,
  loopTextColor: ink,
  noteBkgColor: note,
  noteBorderColor: edge,
  noteTextColor: ink,
  activationBkgColor: group,
  activationBorderColor: edge,
  sequenceNumberColor: paper,
  labelColor: ink,
  stateLabelColor: ink,
  stateBkg: raised,
  transitionColor: soft,
  transitionLabelColor: ink,
  compositeBackground: paper,
  compositeTitleBackground: group,
  altBackground: group,
  specialStateColor: soft,
  innerEndBackground: soft,
  classText: ink,
  rowOdd: raised,
  rowEven: group,
  attributeBackgroundColorOdd: raised,
  attributeBackgroundColorEven: group,
  relationColor: soft,
  relationLabelColor: ink,
  relationLabelBackground: paper,
  requirementBackground: raised,
  requirementBorderColor: edge,
  requirementTextColor: ink,
  sectionBkgColor: group,
  sectionBkgColor2: paper,
  altSectionBkgColor: paper,
  gridColor: edge,
  taskBkgColor: standIn(fills[0]!),
  taskBorderColor: standIn(lines[0]!),
  taskTextColor: ink,
  taskTextDarkColor: ink,
  taskTextLightColor: ink,
  taskTextOutsideColor: ink,
  taskTextClickableColor: ink,
  activeTaskBkgColor: standIn(fills[4]!),
  activeTaskBorderColor: standIn(lines[4]!),
  doneTaskBkgColor: group,
  doneTaskBorderColor: edge,
  critBkgColor: standIn(fills[5]!),
  critBorderColor: standIn(lines[5]!),
  todayLineColor: standIn('--danger'),
  ...numbered('cScale', 12, fills),
  ...numbered('cScalePeer', 12, lines),
  ...numbered('cScaleInv', 12, lines),
  ...alike('cScaleLabel', 12, ink),
  scaleLabelColor: ink,
  ...numbered('pie', 12, fills, 1),
  pieTitleTextColor: ink,
  pieTitleTextSize: '18px',
  pieSectionTextColor: ink,
  pieSectionTextSize: '15px',
  pieLegendTextColor: ink,
  pieLegendTextSize: '15px',
  pieStrokeColor: edge,
  pieStrokeWidth: '1px',
  pieOuterStrokeColor: edge,
  pieOuterStrokeWidth: '1px',
  pieOpacity: '1',
  ...numbered('git', 8, lines),
  ...alike('gitInv', 8, paper),
  ...alike('gitBranchLabel', 8, paper),
  branchLabelColor: paper,
  commitLabelColor: ink,
  commitLabelBackground: group,
  commitLabelFontSize: '12px',
  tagLabelColor: ink,
  tagLabelBackground: raised,
  tagLabelBorder: edge,
  tagLabelFontSize: '12px',
  quadrant1Fill: group,
  quadrant2Fill: raised,
  quadrant3Fill: group,
  quadrant4Fill: raised,
  quadrant1TextFill: ink,
  quadrant2TextFill: ink,
  quadrant3TextFill: ink,
  quadrant4TextFill: ink,
  quadrantPointFill: standIn(lines[1]!),
  quadrantPointTextFill: ink,
  quadrantXAxisTextFill: ink,
  quadrantYAxisTextFill: ink,
  quadrantTitleFill: ink,
  quadrantInternalBorderStrokeFill: edge,
  quadrantExternalBorderStrokeFill: edge,
  ...numbered('fillType', 8, fills),
  xyChart: {
    backgroundColor: paper,
    titleColor: ink,
    dataLabelColor: ink,
    legendTextColor: ink,
    xAxisTitleColor: ink,
    xAxisLabelColor: ink,
    xAxisTickColor: edge,
    xAxisLineColor: edge,
    yAxisTitleColor: ink,
    yAxisLabelColor: ink,
    yAxisTickColor: edge,
    yAxisLineColor: edge,
    plotColorPalette: lines.map(standIn).join(','),
  },
}

/** Of a mind map: each branch with its own fill and line, which grow thinner outwards. */
const branches = fills
  .map((fill, i) => {
    const line = standIn(lines[i]!)
    return [-1, 5, 11]
      .map((start) => start + i)
      .filter((section) => section >= 0)
      .map(
        (section) => `
    .mindmap-node.section-${section} :is(rect, path, circle, polygon) { fill: ${standIn(fill)}; stroke: ${line}; stroke-width: 1.25px }
    .section-edge-${section} { stroke: ${line} }`,
      )
      .join('')
  })
  .join('')

const sheet = `
  .edgeLabel rect, .labelBkg, .edgeLabel .background { fill: ${paper}; opacity: 1; stroke: none }
  .node rect, .node circle, .node ellipse, .node polygon, .node path { stroke-width: 1.25px }
  .node rect.basic { rx: 2px }
  .cluster rect { stroke-width: 1px; stroke-dasharray: 5 3; rx: 3px }
  .edgePaths path { stroke-width: 1.5px }
  .edgePaths .edge-thickness-thick { stroke-width: 3px }
  .cluster-label text { font-weight: 600; stroke: ${group}; stroke-width: 5px; stroke-linejoin: round; paint-order: stroke }
  [class^='bar-plot'] rect { fill: ${standIn(fills[0]!)}; stroke: ${standIn(lines[0]!)} }
  .actor-line { stroke-width: 1px; stroke-dasharray: 4 3 }
  rect.actor { stroke-width: 1.25px }
  text.actor { font-weight: 600 }
  ${branches}
  .mindmap-node.section-root :is(rect, path, circle, polygon) { fill: ${raised}; stroke: ${edge}; stroke-width: 2px }
  .mindmap-node.section-root text { fill: ${ink}; font-weight: 600 }
  .mindmap-node .node-bkg { stroke-width: 1.25px }
  .mindmap-node line { stroke-width: 0 }
  .mindmapDiagram .edge { fill: none }
  .edge-depth-1 { stroke-width: 2.5px }
  .edge-depth-2, .edge-depth-3 { stroke-width: 1.75px }
  .edge-depth-4, .edge-depth-5, .edge-depth-6 { stroke-width: 1.25px }
`

/** Rules that are stronger than the library's, weaker than what a diagram's text asks for. */
export const ownRules: readonly Rule[] = rulesOf(sheet)
