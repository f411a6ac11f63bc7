/** Code blocks of a page: the one thing that must survive to the last character. */
import type { Element, ElementContent } from 'hast'
import { attribute, blockNames, findElement } from './elements.ts'
import { isNeverShown } from './furniture.ts'

/** A code block with nothing but its text and its language, ready to become a fence. */
export function toPlainPre(pre: Element): Element {
  const language = maybeLanguage(pre)
  const value = linesOf(pre.children).replace(/\n$/u, '')
  const className = language === undefined ? [] : [`language-${language}`]
  const code: Element = {
    type: 'element',
    tagName: 'code',
    properties: { className },
    children: [{ type: 'text', value }],
  }
  return { type: 'element', tagName: 'pre', properties: {}, children: [code] }
}

/** The text of code: `br` and the edges of blocks within it are line ends, all else is taken as it stands. */
function linesOf(children: readonly ElementContent[]): string {
  let text = ''
  for (const child of children) {
    if (child.type === 'text') text += child.value
    if (child.type !== 'element' || isNeverShown(child)) continue
    if (child.tagName === 'br') {
      text += '\n'
      continue
    }
    const isBlock = blockNames.has(child.tagName) || child.tagName === 'tr'
    const startsLine = isBlock && text !== '' && !text.endsWith('\n')
    const inner = linesOf(child.children)
    text += `${startsLine ? '\n' : ''}${inner}${isBlock && !inner.endsWith('\n') ? '\n' : ''}`
  }
  return text
}

const languageName = /(?:^|\s)(?:language|lang)-([A-Za-z0-9+#_.-]+)/u

function maybeLanguage(pre: Element): string | undefined {
  const code = findElement(pre, new Set(['code']))
  const names = [pre, code].map((element) => (element ? (attribute(element, 'className') ?? '') : ''))
  return names.map((name) => languageName.exec(name)?.[1]).find((name) => name !== undefined)
}
