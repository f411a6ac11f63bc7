/**
 * A kept page as a document that can be looked at and can do nothing: no scripts, no handlers, no frames, no forms, no
 * links, no address that leads anywhere. It is shown in a frame without any rights and under a policy that forbids all
 * loading; what is taken out here would be refused there too.
 */
import {
  defaultTreeAdapter as tree,
  html as names,
  serialize,
  type DefaultTreeAdapterTypes as Tree,
} from 'parse5'
import { maybeDocument } from '../intake/page-tree.ts'
import { isPictureData } from '../markdown/addresses.ts'
import { toQuietDeclarations, toQuietSheet, type FindPicture } from './original-css.ts'

/** What came along with a page, by the address as the page writes it. */
export interface CameAlong {
  readonly picture: FindPicture
  readonly sheet: (address: string) => { readonly css: string; readonly picture: FindPicture } | undefined
}

export const nothingCame: CameAlong = { picture: () => undefined, sheet: () => undefined }

/** Elements that go with all that they hold. */
const goneNames = new Set(
  (
    'script template iframe frame frameset noframes noembed object embed applet portal fencedframe base link meta title ' +
    'input button select textarea datalist option optgroup output keygen audio video source track canvas map area param ' +
    'bgsound dialog slot plaintext animate animatemotion animatetransform set use foreignobject'
  ).split(' '),
)
/** Elements that others stand for, with the same content. */
const standIns: Readonly<Record<string, string>> = {
  form: 'div',
  noscript: 'div',
  xmp: 'pre',
  listing: 'pre',
  marquee: 'div',
}

/** Drawings and formulas keep only what draws (SVG 2, MathML Core). */
const drawingNames = new Set(
  (
    'svg g path rect circle ellipse line polyline polygon text tspan textPath defs linearGradient radialGradient stop ' +
    'clipPath marker symbol title desc style'
  ).split(' '),
)
const formulaNames = new Set(
  (
    'math mrow mi mn mo ms mtext mspace mfrac msqrt mroot mstyle merror mpadded mphantom msub msup msubsup munder mover ' +
    'munderover mmultiscripts mprescripts mtable mtr mtd semantics'
  ).split(' '),
)

const keptAttributes = new Set(
  (
    'class id title lang dir alt width height colspan rowspan scope headers span align valign bgcolor color border ' +
    'cellpadding cellspacing face size start type value reversed open hidden role datetime cite-text nowrap clear text ' +
    'abbr rules frame noshade compact char charoff summary hspace vspace'
  ).split(' '),
)
const drawingAttributes = new Set(
  (
    'class id viewBox d x y x1 y1 x2 y2 dx dy cx cy r rx ry fx fy points width height transform preserveAspectRatio fill ' +
    'fill-opacity fill-rule stroke stroke-width stroke-opacity stroke-linecap stroke-linejoin stroke-dasharray ' +
    'stroke-dashoffset stroke-miterlimit opacity offset stop-color stop-opacity gradientUnits gradientTransform ' +
    'spreadMethod clip-path clip-rule clipPathUnits marker-start marker-mid marker-end markerWidth markerHeight refX refY ' +
    'orient markerUnits font-size font-family font-weight font-style text-anchor dominant-baseline letter-spacing ' +
    'visibility display textLength lengthAdjust mathvariant displaystyle scriptlevel linethickness columnalign rowalign ' +
    'stretchy accent accentunder fence separator lspace rspace'
  ).split(' '),
)

export interface OriginalPage {
  /** A whole HTML document, for the `srcdoc` of a frame. */
  readonly html: string
}

/**
 * The document to be shown.
 * @param nonce of the style elements, as the policy of the page allows it
 * @returns undefined where elements nest too deep
 */
export function maybeOriginalPage(
  html: string,
  nonce: string,
  along = nothingCame,
): OriginalPage | undefined {
  let body = html
  // What the serialiser writes may be read otherwise than it was built (HTML standard, "serialising HTML fragments",
  // its warning). So it is read again until nothing changes any more.
  for (let round = 0; round < MOST_ROUNDS; round += 1) {
    const document = maybeDocument(body)
    if (!document) return undefined
    const cleaned = cleanDocument(document, nonce, along)
    if (cleaned === body) return { html: cleaned }
    body = cleaned
  }
  return { html: wordsAlone(body, nonce) }
}

const MOST_ROUNDS = 5

/** The policy of the document itself, beside the page's own that it inherits (W3C CSP Level 3). */
function policyFor(nonce: string): string {
  return `default-src 'none'; img-src data:; style-src 'nonce-${nonce}'; base-uri 'none'; form-action 'none'`
}

function cleanDocument(document: Tree.Document, nonce: string, along: CameAlong): string {
  const cleaner = new Cleaner(nonce, along)
  cleaner.cleanBelow(document)
  const root = document.childNodes.find((node): node is Tree.Element => node.nodeName === 'html')
  const head = root?.childNodes.find((node): node is Tree.Element => node.nodeName === 'head')
  if (head) {
    tree.appendChild(head, metaOf({ charset: 'utf-8' }))
    tree.appendChild(head, metaOf({ 'http-equiv': 'Content-Security-Policy', content: policyFor(nonce) }))
    tree.appendChild(head, metaOf({ name: 'referrer', content: 'no-referrer' }))
    // They come first: a policy counts for what stands behind it.
    const metas = head.childNodes.splice(-3)
    head.childNodes.unshift(...metas)
    const rules = cleaner.rules()
    if (rules !== '') tree.appendChild(head, styleOf(rules, nonce, OWN_RULES))
  }
  return serialize(document)
}

/** The last resort for what is read differently each time: its words, without any markup. */
function wordsAlone(html: string, nonce: string): string {
  const text = html.replace(/<[^>]*>/gu, ' ').replace(/[<>&"]/gu, ' ')
  return `<!DOCTYPE html><html><head><meta http-equiv="Content-Security-Policy" content="${policyFor(nonce)}"></head><body><pre>${text}</pre></body></html>`
}

const attributesOf = (values: Readonly<Record<string, string>>) =>
  Object.entries(values).map(([name, value]) => ({ name, value }))

const metaOf = (values: Readonly<Record<string, string>>): Tree.Element =>
  tree.createElement('meta', names.NS.HTML, attributesOf(values))

/** Marks the rules that were made of style attributes, so that reading the document again keeps them. */
const OWN_RULES = 'of-attributes'

function styleOf(css: string, nonce: string, title?: string): Tree.Element {
  const element = tree.createElement(
    'style',
    names.NS.HTML,
    attributesOf({ nonce, ...(title ? { id: title } : {}) }),
  )
  tree.appendChild(element, tree.createTextNode(css))
  return element
}

/** Characters of all style sheets of one page, and of all its pictures. What is more is left out. */
const MOST_CSS = 4 * 1024 * 1024

class Cleaner {
  private readonly declarations = new Map<string, string>()
  private css = 0

  constructor(
    private readonly nonce: string,
    private readonly along: CameAlong,
  ) {}

  /** The rules that stand for the style attributes. As many ids as no page's own selector has, so that they come first. */
  rules(): string {
    return [...this.declarations]
      .map(([declarations, name]) => `.${name}:not(#_):not(#_):not(#_){${declarations}}`)
      .join('\n')
  }

  /** Cleans all that a node holds. Walks with a list of its own, since pages nest deep. */
  cleanBelow(start: Tree.ParentNode): void {
    const waiting: Tree.ParentNode[] = [start]
    for (let parent = waiting.pop(); parent; parent = waiting.pop())
      for (const child of [...parent.childNodes]) {
        if (tree.isTextNode(child) || tree.isDocumentTypeNode(child)) continue
        if (!tree.isElementNode(child) || !this.keeps(child)) tree.detachNode(child)
        else if (child.nodeName !== 'style') waiting.push(child)
      }
  }

  /** Makes an element harmless. @returns whether it stays */
  private keeps(element: Tree.Element): boolean {
    if (element.namespaceURI === names.NS.SVG) return this.keepsForeign(element, drawingNames)
    if (element.namespaceURI === names.NS.MATHML) return this.keepsForeign(element, formulaNames)
    if (element.tagName === 'link') return this.keepsSheet(element)
    if (goneNames.has(element.tagName)) return false
    const standIn = standIns[element.tagName]
    if (standIn !== undefined) element.tagName = element.nodeName = standIn
    if (element.tagName === 'style') return this.keepsStyle(element, this.along.picture)
    if (element.tagName === 'img') return this.keepsPicture(element)
    this.setAttributes(element, keptAttributes)
    return true
  }

  private keepsForeign(element: Tree.Element, kept: ReadonlySet<string>): boolean {
    if (!kept.has(element.tagName)) return false
    if (element.tagName === 'style') return this.keepsStyle(element, this.along.picture)
    this.setAttributes(element, drawingAttributes)
    return true
  }

  /** A style sheet that came along stands in the page from now on. */
  private keepsSheet(element: Tree.Element): boolean {
    const isSheet = /(?:^|\s)stylesheet(?:\s|$)/iu.test(valueOf(element, 'rel') ?? '')
    const isOther = /(?:^|\s)alternate(?:\s|$)/iu.test(valueOf(element, 'rel') ?? '')
    const found = isSheet && !isOther ? this.along.sheet(valueOf(element, 'href') ?? '') : undefined
    if (!found) return false
    element.tagName = element.nodeName = 'style'
    element.childNodes = []
    tree.insertText(element, found.css)
    return this.keepsStyle(element, found.picture)
  }

  private keepsStyle(element: Tree.Element, picture: FindPicture): boolean {
    const isCss = /^(?:text\/css)?$/iu.test((valueOf(element, 'type') ?? '').trim())
    const css = isCss || element.attrs.some(({ name }) => name === 'rel') ? wordsOf(element) : ''
    const media = valueOf(element, 'media') ?? ''
    const isOwn = valueOf(element, 'id') === OWN_RULES
    const quiet = toQuietSheet(css, picture)
    this.css += quiet.length
    if (quiet.trim() === '' || this.css > MOST_CSS) return false
    element.attrs = attributesOf({
      nonce: this.nonce,
      ...(isOwn ? { id: OWN_RULES } : {}),
      ...(/^[\w\s,():.-]+$/u.test(media) ? { media } : {}),
    })
    element.childNodes = []
    tree.insertText(element, quiet)
    return true
  }

  /** A picture that did not come along leaves its words in its place. */
  private keepsPicture(element: Tree.Element): boolean {
    const src = (valueOf(element, 'src') ?? '').trim()
    const address = isPictureData(src) ? src : src === '' ? undefined : this.along.picture(src)
    const alt = valueOf(element, 'alt') ?? ''
    this.setAttributes(element, keptAttributes)
    if (address !== undefined && isPictureData(address)) {
      element.attrs.push({ name: 'src', value: address.replace(/\s+/gu, '') })
      return true
    }
    if (alt.trim() === '') return false
    element.attrs = element.attrs.filter(({ name }) => name === 'class' || name === 'title' || name === 'id')
    element.tagName = element.nodeName = 'span'
    element.childNodes = []
    tree.insertText(element, alt)
    return true
  }

  private setAttributes(element: Tree.Element, kept: ReadonlySet<string>): void {
    const style = valueOf(element, 'style')
    const away = element.tagName === 'a' ? (valueOf(element, 'href') ?? valueOf(element, 'title')) : undefined
    element.attrs = element.attrs.filter(
      ({ name, value, namespace }) =>
        namespace === undefined &&
        (kept.has(name) || /^aria-[a-z]+$/u.test(name)) &&
        (!/\burl\s*\(|\\/iu.test(value) || /^url\(#[\w-]+\)$/u.test(value)),
    )
    if (away !== undefined && element.namespaceURI === names.NS.HTML) setValue(element, 'title', away)
    const name = style === undefined ? null : this.nameFor(toQuietDeclarations(style, this.along.picture))
    if (name !== null) setValue(element, 'class', `${valueOf(element, 'class') ?? ''} ${name}`.trim())
  }

  /** One name for each set of declarations, so that a table of a thousand equal boxes makes one rule. */
  private nameFor(declarations: string): string | null {
    if (declarations.trim() === '') return null
    const known = this.declarations.get(declarations)
    if (known !== undefined) return known
    this.css += declarations.length
    if (this.css > MOST_CSS) return null
    const name = `of-attribute-${this.declarations.size + 1}`
    this.declarations.set(declarations, name)
    return name
  }
}

function valueOf(element: Tree.Element, name: string): string | undefined {
  return element.attrs.find((one) => one.name === name && one.namespace === undefined)?.value
}

function setValue(element: Tree.Element, name: string, value: string): void {
  element.attrs = [...element.attrs.filter((one) => one.name !== name), { name, value }]
}

function wordsOf(element: Tree.Element): string {
  return element.childNodes.map((node) => (tree.isTextNode(node) ? node.value : '')).join('')
}
