/**
 * A document without a screen for the library that draws: elements are made and measured, never shown, and nothing in
 * it runs or loads. It is set up once for a worker, before the library is imported.
 */
import { parseHTML } from 'linkedom'
import {
  boxOf,
  boxOnPage,
  strokeLength,
  strokePoint,
  advanceOf,
  type Measuring,
} from '../../../shared/sketch/measure.ts'
import { createStyleReader, type Piece } from '../../../shared/sketch/piece.ts'
import type { TextMeasure } from '../../../shared/sketch/textBox.ts'

/** The page that the library believes to draw on, CSS pixels. */
const PAGE_WIDTH = 1200
const PAGE_HEIGHT = 800

interface Surroundings {
  window?: unknown
  document?: unknown
  CSSStyleSheet?: unknown
  Image?: unknown
  requestAnimationFrame?: unknown
}

/** Puts the document where the library looks for it. @param text measures a line of text */
export function setUpScreen(text: TextMeasure, around: Surroundings = globalThis): void {
  const { window, document } = parseHTML('<!doctype html><html><head></head><body></body></html>')
  let measuring: Measuring = { style: createStyleReader(), text }
  const prototype = (window as unknown as { Element: { prototype: object } }).Element.prototype
  const define = (name: string, get: (piece: Piece) => unknown): void => {
    Object.defineProperty(prototype, name, {
      configurable: true,
      value(this: Piece, way: number) {
        const answer = get(this)
        return typeof answer === 'function' ? (answer as (way: number) => unknown)(way) : answer
      },
    })
  }
  define('getBBox', (piece) => boxOf(piece, measuring))
  define('getBoundingClientRect', (piece) => toRectangle(piece, measuring))
  define('getComputedTextLength', (piece) => advanceOf(piece, measuring))
  define('getTotalLength', (piece) => strokeLength(piece))
  define('getPointAtLength', (piece) => (way: number) => strokePoint(piece, way))
  for (const [name, value] of [
    ['clientWidth', PAGE_WIDTH],
    ['offsetWidth', PAGE_WIDTH],
    ['clientHeight', PAGE_HEIGHT],
    ['offsetHeight', PAGE_HEIGHT],
  ] as const)
    Object.defineProperty(prototype, name, { configurable: true, get: () => value })
  const getComputedStyle = (piece: Piece) => ({
    getPropertyValue: (property: string) => measuring.style(piece, property),
    get fontSize() {
      return measuring.style(piece, 'font-size') || '16px'
    },
    get textAnchor() {
      return measuring.style(piece, 'text-anchor') || 'start'
    },
  })
  hideFrom(document)
  Object.assign(window, { getComputedStyle, innerWidth: PAGE_WIDTH, innerHeight: PAGE_HEIGHT })
  around.window = window
  around.document = document
  around.CSSStyleSheet = StyleSheet
  around.Image = NoPicture
  ensureNewerCalls()
  // Frames never come where nothing is shown.
  around.requestAnimationFrame = (then: (time: number) => void) =>
    setTimeout(() => then(performance.now()), 0)
  measuring = { style: createStyleReader(), text }
}

interface Searchable {
  getElementById(id: string): unknown
}

/** The graph library that lays out mind maps draws on a surface where it finds one; without, it only computes. */
function hideFrom(document: Searchable): void {
  const find = document.getElementById.bind(document)
  document.getElementById = (id) => (id === 'cy' ? undefined : find(id))
}

function toRectangle(piece: Piece, measuring: Measuring) {
  const { x, y, width, height } = boxOnPage(piece, measuring)
  return { x, y, width, height, left: x, top: y, right: x + width, bottom: y + height }
}

/** As much of a constructed style sheet (CSSOM §6.1) as the library asks of one: rules go in as text and come out again. */
class StyleSheet {
  readonly cssRules: { readonly cssText: string }[] = []

  insertRule(cssText: string, index = 0): number {
    this.cssRules.splice(index, 0, { cssText })
    return index
  }

  replaceSync(cssText: string): void {
    this.cssRules.splice(0, this.cssRules.length, { cssText })
  }
}

/** Pictures in diagrams are neither loaded nor shown; the library only asks for their shape. */
class NoPicture {
  src = ''
  readonly naturalWidth = 1
  readonly naturalHeight = 1

  decode(): Promise<void> {
    return Promise.resolve()
  }
}

/**
 * What the library calls and the oldest browser that this runs in (Chrome 114) lacks: URL.canParse (WHATWG URL) and
 * Object.groupBy (ECMAScript 2024).
 */
function ensureNewerCalls(): void {
  URL.canParse ??= (address, base) => {
    try {
      return Boolean(new URL(address, base))
    } catch {
      return false
    }
  }
  const newer = Object as unknown as { groupBy?: typeof groupBy }
  newer.groupBy ??= groupBy
}

function groupBy<T>(items: Iterable<T>, keyOf: (item: T, index: number) => PropertyKey): object {
  const groups = Object.create(null) as Record<PropertyKey, T[]>
  let index = 0
  for (const item of items) (groups[keyOf(item, index++)] ??= []).push(item)
  return groups
}
