import type { Element, Root } from 'hast'
import { toString } from 'hast-util-to-string'
import { visit } from 'unist-util-visit'
import fc from 'fast-check'
import { expect, it } from 'vitest'
import { maybeRunOf } from '../../../../shared/markdown/elements.ts'
import { setPlaceholdersApart } from '../../../../shared/markdown/placeholders.ts'
import { renderMarkdown } from '../../../../shared/markdown/render.ts'

const apart = (text: string): Root => setPlaceholdersApart(renderMarkdown(text), text)

function named(root: Root): string[] {
  const names: string[] = []
  visit(root, 'element', (node: Element) => {
    if (node.tagName === 'data') names.push(String(node.properties.value))
  })
  return names
}

it('sets placeholders apart in prose, code and blocks of code, and leaves doubled signs as they are', () => {
  expect(named(apart('Ask ⁅host⁆, then `ssh ⁅user⁆@⁅host⁆`.\n\n```sh\nping ⁅address⁆\n```'))).toEqual([
    'host',
    'user',
    'host',
    'address',
  ])
  expect(named(apart('⁅⁅host⁆ is no placeholder, and ⁅ alone is none'))).toEqual([])
})

it('gives back the same tree where there is none', () => {
  const root = renderMarkdown('no *placeholder* here')
  expect(setPlaceholdersApart(root, 'no *placeholder* here')).toBe(root)
})

it('changes no word, and every linear run still shows its own place of the source', () => {
  const pieces = fc.constantFrom('⁅host⁆', '⁅', '⁆', '⁅⁅', 'x', ' ', '*', '`', '\n', '- ', '\\', '&amp;', '_')
  fc.assert(
    fc.property(fc.array(pieces, { maxLength: 25 }), (parts) => {
      const text = parts.join('')
      const root = apart(text)
      expect(toString(root)).toBe(toString(renderMarkdown(text)))
      visit(root, 'element', (node: Element) => {
        const run = maybeRunOf(node)
        if (run && run.to - run.from === run.text.length && !/\s/.test(run.text))
          expect(text.slice(run.from, run.to)).toBe(run.text)
      })
    }),
  )
})
