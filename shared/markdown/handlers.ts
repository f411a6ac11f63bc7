/** How each kind of Markdown node is shown, where it differs from mdast-util-to-hast's own way. */
import type { Element, ElementContent, Properties } from 'hast'
import type {
  Code,
  Definition,
  FootnoteDefinition,
  FootnoteReference,
  Html,
  Image,
  ImageReference,
  InlineCode,
  Link,
  LinkReference,
  ListItem,
  Nodes,
  Parents,
  Text,
} from 'mdast'
import { defaultHandlers, type Handlers, type State } from 'mdast-util-to-hast'
import { isPictureData, maybeBlobNamed, maybeLinkAddress, maybeStepNamed } from './addresses.ts'
import { usedDefinitions } from './definitions.ts'
import { element, runElement } from './elements.ts'
import type { ParsedMarkdown } from './parse.ts'
import { runsOf, type Leaf } from './runs.ts'

/** Handlers for one parsed text. */
export function createHandlers(parsed: ParsedMarkdown): Handlers {
  const used = usedDefinitions(parsed.tree)
  const spans = (leaf: Leaf): Element[] => runsOf(parsed, leaf).map((run) => runElement(run))
  const whole = (node: Nodes, text: string): Element => runElement({ ...placeOf(node), text })
  const asText = (node: Nodes): Element => {
    const { from, to } = placeOf(node)
    return runElement({ from, to, text: parsed.text.slice(from, to) })
  }
  return {
    text: (_: State, node: Text) => spans(node),
    inlineCode: (_: State, node: InlineCode) => element('code', {}, spans(node)),
    code: (_: State, node: Code) => codeBlock(node, spans(node)),
    html: (_: State, node: Html, parent: Parents | undefined) => rawHtml(spans(node), parent),
    break: () => element('br', {}, []),
    link: (state: State, node: Link) =>
      stepLink(node, state.all(node)) ?? link(node.url, node.title, state.all(node)),
    linkReference: (state: State, node: LinkReference) => {
      const definition = state.definitionById.get(node.identifier.toUpperCase())
      return definition ? link(definition.url, definition.title, state.all(node)) : asText(node)
    },
    image: (_: State, node: Image) => picture(node, node, whole),
    imageReference: (state: State, node: ImageReference) => {
      const definition = state.definitionById.get(node.identifier.toUpperCase())
      return definition ? picture(node, definition, whole) : asText(node)
    },
    definition: (_: State, node: Definition) =>
      used.has(node) ? undefined : element('p', { className: ['unused-definition'] }, [asText(node)]),
    listItem: (state: State, node: ListItem, parent: Parents | undefined) =>
      listItem(defaultHandlers.listItem(state, node, parent), node),
    footnoteReference: (_: State, node: FootnoteReference) =>
      element('sup', { className: ['footnote-mark'] }, [whole(node, node.label ?? node.identifier)]),
    footnoteDefinition: (state: State, node: FootnoteDefinition) => footnote(node, state.all(node)),
  }
}

function placeOf(node: Nodes): { from: number; to: number } {
  return { from: node.position?.start.offset ?? 0, to: node.position?.end.offset ?? 0 }
}

function codeBlock(node: Code, runs: Element[]): Element {
  const language = node.lang?.split(/\s+/u)[0]
  const code = element('code', language ? { className: [`language-${language}`] } : {}, runs)
  return element('pre', language ? fenceOf(node, language) : {}, [code])
}

/** What shows a block as something other than text needs its language and its whole place, fences included. */
function fenceOf(node: Code, language: string): Properties {
  const { from, to } = placeOf(node)
  return { dataFence: language.toLowerCase(), dataFenceFrom: from, dataFenceTo: to }
}

function rawHtml(runs: Element[], parent: Parents | undefined): Element {
  const isInline = parent?.type === 'paragraph' || parent?.type === 'heading' || parent?.type === 'tableCell'
  const isWithinPhrase =
    isInline || ['emphasis', 'strong', 'delete', 'link', 'linkReference'].includes(parent?.type ?? '')
  return element(isWithinPhrase ? 'span' : 'pre', { className: ['raw-html'] }, runs)
}

/** No `href`: following a link is an act of its own, with its own question, never a navigation of the page. */
function link(url: string, title: string | null | undefined, children: ElementContent[]): Element {
  const address = maybeLinkAddress(url)
  if (address === undefined) return element('span', { className: ['refused-address'] }, children)
  return element('a', { className: ['address'], dataAddress: address, title: title || address }, children)
}

/** A reference to a step of a procedure: whoever shows the text knows the step's present number. */
function stepLink(node: Link, children: ElementContent[]): Element | undefined {
  const step = maybeStepNamed(node.url)
  if (step === undefined) return undefined
  const { from, to } = placeOf(node)
  return element(
    'a',
    { className: ['step-link'], dataStepNamed: step, dataStepFrom: from, dataStepTo: to },
    children,
  )
}

function picture(
  node: Image | ImageReference,
  { url, title }: { readonly url: string; readonly title?: string | null | undefined },
  whole: (node: Nodes, text: string) => Element,
): Element {
  const sha256 = maybeBlobNamed(url)
  if (sha256 !== undefined) return keptPicture(node, sha256, title ?? '')
  if (isPictureData(url)) return element('img', { src: url.replace(/\s+/gu, ''), alt: node.alt ?? '' }, [])
  const name = element('span', { className: ['picture-name'] }, [whole(node, node.alt || 'without a name')])
  const address = element('span', { className: ['picture-address'] }, [whole(node, url)])
  return element('span', { className: ['picture'] }, [
    { type: 'text', value: 'Picture: ' },
    name,
    { type: 'text', value: ' ' },
    address,
  ])
}

/** Bytes that the lab keeps: whoever shows the text finds them by their SHA-256. The title is the name of the file. */
function keptPicture(node: Image | ImageReference, sha256: string, title: string): Element {
  const { from, to } = placeOf(node)
  const place = { dataPictureFrom: from, dataPictureTo: to }
  return element('img', { dataBlob: sha256, alt: node.alt ?? '', title, ...place }, [])
}

/** A box to tick tells by `data-from` where its item's words begin, so that whoever shows it knows which item it is. */
function listItem(item: Element, node: ListItem): Element {
  if (typeof node.checked !== 'boolean') return item
  const [first] = node.children
  const from = first?.type === 'paragraph' ? first.children[0]?.position?.start.offset : undefined
  const box = from === undefined ? undefined : findBox(item)
  if (box) box.properties['dataFrom'] = from
  return item
}

/** The item's own box, which stands before all that lies in the item. */
function findBox(parent: Element): Element | undefined {
  for (const child of parent.children) {
    if (child.type !== 'element') continue
    if (child.tagName === 'input') return child
    return child.tagName === 'p' ? findBox(child) : undefined
  }
  return undefined
}

/** Shown where it stands in the source, so that the rendered text keeps the source's order. */
function footnote(node: FootnoteDefinition, children: ElementContent[]): Element {
  const mark = element('sup', { className: ['footnote-mark'] }, [
    { type: 'text', value: node.label ?? node.identifier },
  ])
  return element('div', { className: ['footnote'] }, [mark, ...children])
}
