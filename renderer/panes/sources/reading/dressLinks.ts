/** Links, addresses and pictures of a text as they look. */
import type { SyntaxNode, Tree } from '@lezer/common'
import { isPictureData, maybeLinkAddress } from '../../../../shared/markdown/addresses.ts'
import type { Drawing } from './drawing.ts'
import { LettersWidget, PictureWidget } from './widgets.ts'

/** Where the labels of reference links lead; to be known before any link is dressed. */
export function readDefinitions(drawing: Drawing, tree: Tree): void {
  tree.iterate({
    enter: ({ name, node }) => {
      if (name !== 'LinkReference') return undefined
      const [label, url] = [node.getChild('LinkLabel'), node.getChild('URL')]
      const key = label && keyOf(drawing.text.slice(label.from, label.to))
      if (key && url && !drawing.definitions.has(key))
        drawing.definitions.set(key, addressIn(drawing.text.slice(url.from, url.to)))
      return false
    },
  })
}

const keyOf = (label: string): string =>
  label
    .replace(/^\[|\]$/gu, '')
    .replace(/\s+/gu, ' ')
    .trim()
    .toLowerCase()

/** A destination without its angle brackets and escapes (CommonMark §6.3). */
function addressIn(destination: string): string {
  return destination
    .replace(/^<|>$/gu, '')
    .replace(/\\([!-/:-@[-`{-~])/gu, '$1')
    .replace(/&amp;/gu, '&')
}

interface LinkPlaces {
  /** The words, between the brackets. */
  readonly from: number
  readonly to: number
  readonly url: string | undefined
}

/** The words and the destination of a link or a picture; null for brackets that are neither. */
function placesOf(drawing: Drawing, node: SyntaxNode): LinkPlaces | null {
  const { text } = drawing
  const marks = node.getChildren('LinkMark')
  const open = marks[0]
  const close = marks.find(({ from }) => text[from] === ']')
  if (!open || !close) return null
  const url = node.getChildren('URL').find(({ from }) => from >= close.to)
  const label = node.getChildren('LinkLabel').find(({ from }) => from >= close.to)
  const named = label && text.slice(label.from, label.to) !== '[]' ? label : { from: open.to, to: close.from }
  const destination = url
    ? addressIn(text.slice(url.from, url.to))
    : drawing.definitions.get(keyOf(text.slice(named.from, named.to)))
  return { from: open.to, to: close.from, url: destination }
}

export function dressLink(drawing: Drawing, node: SyntaxNode): void {
  const places = placesOf(drawing, node)
  const address = places?.url === undefined ? undefined : maybeLinkAddress(places.url)
  // What is no link, or leads where nothing may lead, shows its signs.
  if (!places || address === undefined || /^[ \t]*$/u.test(drawing.text.slice(places.from, places.to))) return
  drawing.hide(node.from, places.from)
  drawing.hide(places.to, node.to)
  drawing.link(places.from, places.to, address)
}

export function dressAutolink(drawing: Drawing, node: SyntaxNode): boolean {
  const url = node.getChild('URL')
  const address = url ? maybeLinkAddress(drawing.text.slice(url.from, url.to)) : undefined
  if (url && address !== undefined) {
    drawing.hide(node.from, url.from)
    drawing.hide(url.to, node.to)
    drawing.link(url.from, url.to, address)
  }
  return false
}

const holdersOfUrls = new Set(['Link', 'Image', 'Autolink', 'LinkReference'])

/** An address that stands in the text as it is. */
export function dressUrl(drawing: Drawing, node: SyntaxNode): void {
  if (holdersOfUrls.has(node.parent?.name ?? '')) return
  const written = drawing.text.slice(node.from, node.to)
  const whole = /^www\./iu.test(written)
    ? `http://${written}`
    : /^[^/:]+@[^/:]+$/u.test(written)
      ? `mailto:${written}`
      : written
  const address = maybeLinkAddress(whole)
  if (address !== undefined) drawing.link(node.from, node.to, address)
}

/** A picture that stands in the text is shown; of any other, its words and, behind a press, its address. */
export function dressPicture(drawing: Drawing, node: SyntaxNode): boolean {
  const places = placesOf(drawing, node)
  if (places?.url === undefined) return true
  const words = drawing.text.slice(places.from, places.to).replace(/\\([!-/:-@[-`{-~])/gu, '$1')
  if (isPictureData(places.url)) {
    drawing.replace(node.from, node.to, new PictureWidget(places.url.replace(/\s+/gu, ''), words))
    return false
  }
  const address = maybeLinkAddress(places.url)
  if (address === undefined) return true
  if (words.trim() === '') {
    drawing.link(node.from, node.to, address, 'st-r-picture')
    drawing.replace(node.from, node.to, new LettersWidget('Picture without words'))
    return false
  }
  drawing.link(node.from, node.to, address, 'st-r-picture')
  drawing.replace(node.from, places.from, new LettersWidget('Picture: '))
  drawing.hide(places.to, node.to)
  return false
}
