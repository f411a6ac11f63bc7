/**
 * Making a text's own Markdown part of a larger document: its tree is taken over with all that it says,
 * but nothing of it may reach out. Headings don't join the document's outline, names of links and footnotes
 * can't meet those of another text, and raw HTML is shown instead of being live.
 */
import type {
  BlockContent,
  Code,
  Definition,
  FootnoteDefinition,
  FootnoteReference,
  Nodes,
  Paragraph,
  PhrasingContent,
  Root,
} from 'mdast'
import { visit } from 'unist-util-visit'
import { definitionsByName, footnotesByName, usedDefinitions } from '../markdown/definitions.ts'
import { maybeTree } from '../markdown/parse.ts'
import { createFootnotes, type Footnotes } from './footnotes.ts'
import { toHarmlessImage, toHarmlessLink } from './links.ts'
import { isWrittenFaithfully } from './faithful.ts'
import { mergeText, text } from './nodes.ts'

/** What of a text its nodes are read with. */
interface Scope {
  readonly source: string
  readonly name: string
  readonly footnotes: Footnotes
  readonly links: ReadonlyMap<string, Definition>
  readonly used: ReadonlySet<Definition>
  readonly notes: ReadonlyMap<string, FootnoteDefinition>
  readonly named: ReadonlySet<FootnoteDefinition>
}

/**
 * The blocks of a Markdown text, ready to stand anywhere in a document.
 * A text that can't be taken over as a tree (too long, nested too deeply, or not read back as it was when written)
 * is shown in a fence, word for word.
 *
 * @param name one that no other text of the document has
 */
export function embedMarkdown(source: string, name: string, footnotes: Footnotes): BlockContent[] {
  const clean = source.replace(/\r\n?/gu, '\n').replaceAll('\0', '\ufffd')
  if (clean.trim() === '') return []
  const tree = maybeTree(clean)
  if (!tree) return [fence(clean)]
  const trial = createFootnotes()
  const blocks = blocksOf(tree, clean, name, trial)
  if (!isWrittenFaithfully(blocks, trial.definitions())) return [fence(clean)]
  return blocksOf(tree, clean, name, footnotes)
}

/** The words of a text as a code block. */
function fence(source: string): Code {
  return { type: 'code', lang: null, meta: null, value: source.replace(/\n$/u, '') }
}

function blocksOf(tree: Root, source: string, name: string, footnotes: Footnotes): BlockContent[] {
  const notes = footnotesByName(tree)
  const scope: Scope = {
    source,
    name,
    footnotes,
    links: definitionsByName(tree),
    used: usedDefinitions(tree),
    notes,
    named: namedFootnotes(tree, notes),
  }
  return tree.children.flatMap((node) => toBlocks(node, scope))
}

/** Those that the text itself names, or that one of these names. Two that name only each other would be lost. */
function namedFootnotes(
  tree: Root,
  notes: ReadonlyMap<string, FootnoteDefinition>,
): ReadonlySet<FootnoteDefinition> {
  const named = new Set<FootnoteDefinition>()
  const follow = (from: Nodes): void => {
    visit(from, (node) => {
      if (node.type === 'footnoteDefinition' && node !== from) return 'skip'
      const note = node.type === 'footnoteReference' ? notes.get(node.identifier) : undefined
      if (note && !named.has(note)) {
        named.add(note)
        follow(note)
      }
      return undefined
    })
  }
  follow(tree)
  return named
}

function toBlocks(node: Nodes, scope: Scope): BlockContent[] {
  switch (node.type) {
    case 'heading':
      return headingBlocks(toPhrases(node.children, scope))
    case 'paragraph':
      return paragraphBlocks(toPhrases(node.children, scope))
    case 'html':
      return [{ type: 'code', lang: null, meta: null, value: node.value }]
    case 'definition':
      return scope.used.has(node) ? [] : paragraphBlocks([text(sourceOf(node, scope))])
    case 'footnoteDefinition':
      return scope.named.has(node) ? [] : unnamedFootnote(node, scope)
    case 'blockquote':
      return [{ type: 'blockquote', children: node.children.flatMap((child) => toBlocks(child, scope)) }]
    case 'list':
      return [
        {
          ...withoutPosition(node),
          children: node.children.map((item) => ({
            ...withoutPosition(item),
            children: item.children.flatMap((child) => toBlocks(child, scope)),
          })),
        },
      ]
    case 'table':
      return [
        {
          ...withoutPosition(node),
          children: node.children.map((row) => ({
            type: 'tableRow',
            children: row.children.map((box) => ({
              type: 'tableCell',
              children: toPhrases(box.children, scope),
            })),
          })),
        },
      ]
    case 'code':
    case 'thematicBreak':
      return [withoutPosition(node)]
    default:
      return paragraphBlocks(toPhrases([node as PhrasingContent], scope))
  }
}

/** A heading of the text would stand in the outline of the document, so its words are only made strong. */
function headingBlocks(children: PhrasingContent[]): BlockContent[] {
  const plain = children.flatMap((child) => (child.type === 'strong' ? child.children : [child]))
  return plain.length === 0
    ? []
    : [{ type: 'paragraph', children: [{ type: 'strong', children: mergeText(plain) }] }]
}

function paragraphBlocks(children: PhrasingContent[]): Paragraph[] {
  return children.length === 0 ? [] : [{ type: 'paragraph', children }]
}

/** A footnote that nothing names would vanish; it stays where it is, with its mark as words. */
function unnamedFootnote(node: FootnoteDefinition, scope: Scope): BlockContent[] {
  const blocks = node.children.flatMap((child) => toBlocks(child, scope))
  const mark = `[^${node.label ?? node.identifier}]:`
  const [first, ...rest] = blocks
  if (first?.type !== 'paragraph') return [...paragraphBlocks([text(mark)]), ...blocks]
  return [{ type: 'paragraph', children: mergeText([text(`${mark} `), ...first.children]) }, ...rest]
}

function toPhrases(nodes: readonly PhrasingContent[], scope: Scope): PhrasingContent[] {
  return mergeText(nodes.flatMap((node) => toPhrase(node, scope)))
}

function toPhrase(node: PhrasingContent, scope: Scope): PhrasingContent[] {
  switch (node.type) {
    case 'html':
      return [text(node.value)]
    case 'linkReference': {
      const definition = scope.links.get(node.identifier)
      if (!definition) return [text(sourceOf(node, scope))]
      return toHarmlessLink(definition.url, definition.title, toPhrases(node.children, scope))
    }
    case 'imageReference': {
      const definition = scope.links.get(node.identifier)
      return definition
        ? toHarmlessImage(definition.url, definition.title, node.alt)
        : [text(sourceOf(node, scope))]
    }
    case 'link':
      return toHarmlessLink(node.url, node.title, toPhrases(node.children, scope))
    case 'image':
      return toHarmlessImage(node.url, node.title, node.alt)
    case 'footnoteReference':
      return [toFootnoteReference(node, scope)]
    case 'strong':
    case 'emphasis':
    case 'delete':
      return [{ type: node.type, children: toPhrases(node.children, scope) }]
    default:
      return [withoutPosition(node)]
  }
}

function toFootnoteReference(node: FootnoteReference, scope: Scope): PhrasingContent {
  const definition = scope.notes.get(node.identifier)
  if (!definition) return text(sourceOf(node, scope))
  const key = JSON.stringify([scope.name, node.identifier])
  return scope.footnotes.refer(key, () => definition.children.flatMap((child) => toBlocks(child, scope)))
}

function sourceOf(node: Nodes, scope: Scope): string {
  return scope.source
    .slice(node.position?.start.offset ?? 0, node.position?.end.offset ?? 0)
    .replace(/\n[ \t>]*/gu, '\n')
}

function withoutPosition<T extends Nodes>(node: T): T {
  const { position: _, ...rest } = node
  return rest as T
}
