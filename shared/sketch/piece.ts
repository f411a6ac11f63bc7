/** A piece of SVG as far as it is needed to measure it, and what its styles are. */
import { declarationsOf, rulesOf, type Declaration, type Rule } from './css.ts'

/** The part of the DOM's Node and Element that is used here. */
export interface Piece {
  readonly nodeType: number
  readonly localName: string
  readonly textContent: string | null
  readonly parentNode: Piece | null
  readonly childNodes: Iterable<Piece>
  getAttribute(name: string): string | null
  matches(selector: string): boolean
}

const ELEMENT = 1
const TEXT = 3
export const isElement = (piece: Piece): boolean => piece.nodeType === ELEMENT
export const isText = (piece: Piece): boolean => piece.nodeType === TEXT

/** The value that a property has at a piece; '' where nothing sets it. */
export type StyleOf = (piece: Piece, property: string) => string

/** The properties that measuring asks for. Those that are not inherited (CSS Display, CSS Inline) are told apart. */
const asked = new Set([
  'display',
  'dominant-baseline',
  'font-family',
  'font-size',
  'font-style',
  'font-weight',
  'letter-spacing',
  'text-anchor',
  'white-space',
])
const notInherited = new Set(['display'])

/**
 * Reads styles as the cascade gives them: the element's own `style`, the rules of the drawing's style sheet, attributes,
 * then what is inherited. Knows what it read before, so a style sheet is read once.
 */
export function createStyleReader(): StyleOf {
  const sheets = new Map<string, readonly Rule[]>()
  const rulesFor = (sheet: string): readonly Rule[] => {
    const known = sheets.get(sheet)
    if (known) return known
    const rules = rulesOf(sheet).filter(({ declarations }) =>
      declarations.some(({ property }) => asked.has(property)),
    )
    sheets.set(sheet, rules)
    return rules
  }
  const own = (piece: Piece, property: string): string => {
    const ruled = findRuled(piece, property, rulesFor(sheetOf(piece)))
    if (ruled?.isImportant) return ruled.value
    const styled = lastOf(declarationsOf(piece.getAttribute('style') ?? ''), property)
    return styled?.value ?? ruled?.value ?? piece.getAttribute(property) ?? ''
  }
  return (piece, property) => {
    for (let at: Piece | null = piece; at && isElement(at); at = at.parentNode) {
      const value = own(at, property)
      if (value !== '' && value !== 'inherit') return value
      if (notInherited.has(property)) return ''
    }
    return ''
  }
}

/** Of several declarations of a property the last one counts. */
function lastOf(declarations: readonly Declaration[], property: string): Declaration | undefined {
  return declarations.filter((one) => one.property === property).at(-1)
}

function findRuled(piece: Piece, property: string, rules: readonly Rule[]): Declaration | undefined {
  let found: Declaration | undefined
  for (const { selector, declarations } of rules) {
    const declaration = lastOf(declarations, property)
    if (!declaration || (found?.isImportant && !declaration.isImportant)) continue
    if (isMatch(piece, selector)) found = declaration
  }
  return found
}

function isMatch(piece: Piece, selector: string): boolean {
  try {
    return piece.matches(selector)
  } catch {
    // A selector that is not understood matches nothing (Selectors 4 §4.1).
    return false
  }
}

/** The style sheet within the drawing that a piece belongs to. */
function sheetOf(piece: Piece): string {
  let drawing: Piece | null = null
  for (let at: Piece | null = piece; at && isElement(at); at = at.parentNode)
    if (at.localName === 'svg') drawing = at
  for (const part of drawing?.childNodes ?? []) if (part.localName === 'style') return part.textContent ?? ''
  return ''
}
