/** Draws the text of a diagram. Runs where there is no screen; see screen.ts, which must be set up before. */
import type { Mermaid, MermaidConfig } from 'mermaid'
import type { NotDrawn, SketchResult } from '../../../shared/sketch/drawn.ts'
import { toFinished } from '../../../shared/sketch/finish.ts'
import { TEXT_UNITS } from '../../../shared/sketch/drawn.ts'
import { MAX_SKETCH_EDGES, MAX_SKETCH_TEXT, maybeKindName } from '../../../shared/sketch/kinds.ts'
import { themeVariables } from '../../../shared/sketch/ownLook.ts'
import { toPrepared, type Prepared } from '../../../shared/sketch/prepare.ts'
import { broken, noKind, tooLarge, toReason } from '../../../shared/sketch/reason.ts'
import { mindMapLayout } from './mindMap.ts'

const FONT = 'Commissioner'
/** A thing is as wide as its words, but not narrower than this. */
const NARROWEST = 40

/** What a diagram's own text may not change, wherever in the settings it stands. */
const secure = [
  'secure',
  'securityLevel',
  'startOnLoad',
  'maxTextSize',
  'maxEdges',
  'suppressErrorRendering',
  'htmlLabels',
  'theme',
  'themeVariables',
  'themeCSS',
  'darkMode',
  'fontFamily',
  'altFontFamily',
  'look',
  'layout',
  'elk',
  'defaultRenderer',
  'deterministicIds',
  'deterministicIDSeed',
  'dompurifyConfig',
  'legacyMathML',
  'forceLegacyMathML',
  'arrowMarkerAbsolute',
  'logLevel',
]

/** Exported for tests, which draw with a screen what this draws without one. */
export const config = {
  startOnLoad: false,
  securityLevel: 'strict',
  secure,
  suppressErrorRendering: true,
  htmlLabels: false,
  deterministicIds: true,
  deterministicIDSeed: 'sketch',
  maxTextSize: MAX_SKETCH_TEXT,
  maxEdges: MAX_SKETCH_EDGES,
  logLevel: 5,
  theme: 'base',
  look: 'classic',
  fontFamily: FONT,
  fontSize: TEXT_UNITS,
  themeVariables: { ...themeVariables, fontFamily: FONT, fontSize: `${TEXT_UNITS}px` },
  flowchart: {
    htmlLabels: false,
    padding: 12,
    nodeSpacing: 36,
    rankSpacing: 44,
    wrappingWidth: 200,
    minNodeWidth: NARROWEST,
  },
  state: { minNodeWidth: NARROWEST },
  sequence: {
    wrap: true,
    actorFontFamily: FONT,
    noteFontFamily: FONT,
    messageFontFamily: FONT,
    actorFontSize: TEXT_UNITS,
    noteFontSize: TEXT_UNITS,
    messageFontSize: TEXT_UNITS,
    mirrorActors: false,
    height: 44,
    diagramMarginX: 12,
    diagramMarginY: 8,
  },
  class: { htmlLabels: false, minNodeWidth: NARROWEST },
  mindmap: { padding: 10, maxNodeWidth: 150 },
  packet: { bitWidth: 20 },
  gantt: {
    useWidth: 760,
    axisFormat: '%-d %b',
    fontSize: TEXT_UNITS - 2,
    sectionFontSize: TEXT_UNITS - 2,
    barHeight: 24,
    barGap: 6,
  },
  journey: { taskFontFamily: FONT, sectionFontSize: TEXT_UNITS - 2 },
}

type Library = Mermaid
let library: Promise<Library> | null = null

/** The library is large; it is loaded when the first diagram is drawn. */
async function load(): Promise<Library> {
  library ??= import('mermaid').then(({ default: mermaid }) => {
    mermaid.registerLayoutLoaders([mindMapLayout])
    mermaid.initialize(config as MermaidConfig)
    return mermaid
  })
  return library
}

/** Draws a diagram, or says why it cannot be drawn. The same text gives the same drawing. */
export async function drawSketch(text: string): Promise<SketchResult> {
  if (text.length > MAX_SKETCH_TEXT) return tooLarge
  if (text.trim() === '') return noKind(text)
  const mermaid = await load()
  const prepared = toPrepared(text)
  const refusal = await findRefusal(mermaid, prepared, text)
  if (refusal) return refusal
  try {
    const { svg, diagramType } = await withoutChance(() => mermaid.render('sketch', prepared.text))
    return toFinished(svg, diagramType, text)
  } catch (error) {
    // The text was read before without a mistake in it; only its size is found out this late.
    const reason = toReason(error, text, prepared.lineOf)
    if (reason.code === 'too large') return reason
    console.warn('A diagram that can be read could not be drawn:', error)
    return broken
  }
}

/** What is wrong with a text, before anything is drawn. */
async function findRefusal(mermaid: Library, prepared: Prepared, text: string): Promise<NotDrawn | null> {
  try {
    const { diagramType } = await mermaid.parse(prepared.text)
    return maybeKindName(diagramType) === undefined ? noKind(text) : null
  } catch (error) {
    return toReason(error, text, prepared.lineOf)
  }
}

/** Runs with numbers in place of chance that are always the same. Only for where nothing else runs meanwhile. */
async function withoutChance<T>(work: () => Promise<T>): Promise<T> {
  const { random } = Math
  let state = 1
  Math.random = () => {
    // Park and Miller's minimal standard generator.
    state = (state * 48271) % 2147483647
    return state / 2147483647
  }
  try {
    return await work()
  } finally {
    Math.random = random
  }
}
