/**
 * Real pages of the Debian documentation (https://www.debian.org/doc/): every code block must come through word for word.
 * The expected text is read by parse5 alone, as the DOM's textContent would give it.
 */
import { existsSync, readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import type { Element, Nodes } from 'hast'
import { fromHtml } from 'hast-util-from-html'
import { visit } from 'unist-util-visit'
import { describe, expect, test } from 'vitest'
import { intakeFile } from '../../shared/intake/file.ts'
import { parseMarkdown } from '../../shared/markdown/parse.ts'

const standards = process.env['STANDARDS_DIR'] ?? join(import.meta.dirname, '../../../shared/standards')
const folder = join(standards, 'html-mhtml/pages')
const pages = existsSync(folder) ? readdirSync(folder) : []

const textOf = (node: Nodes): string =>
  node.type === 'text' ? node.value : 'children' in node ? node.children.map(textOf).join('') : ''

describe.skipIf(pages.length === 0)(
  'pages of the Debian documentation (skipped where they are not at hand)',
  () => {
    // Without pages one name stands for them all, so that what is skipped has a name.
    test.each(pages.length > 0 ? pages : ['every page'])(
      '%s keeps its code blocks, headings and words',
      (name) => {
        const bytes = readFileSync(join(folder, name))
        const intake = intakeFile(name, bytes)
        if (!intake.ok) throw new Error(intake.sentence)
        const page = fromHtml(bytes.toString('utf8'))
        const pres: string[] = []
        const headings: string[] = []
        visit(page, 'element', (node: Element) => {
          if (node.tagName === 'pre') pres.push(textOf(node).replace(/\n$/, ''))
          if (/^h[1-6]$/.test(node.tagName)) headings.push(textOf(node).replace(/\s+/g, ' ').trim())
        })
        const codes: string[] = []
        const written: string[] = []
        const tree = parseMarkdown(intake.text)
        visit(tree, (node) => {
          if (node.type === 'code') codes.push(node.value)
          if (node.type === 'heading')
            written.push(intake.text.slice(node.position!.start.offset, node.position!.end.offset))
        })
        expect(pres.length).toBeGreaterThan(0)
        expect(codes).toEqual(pres)
        expect(written.length).toBe(headings.length)
        expect(intake.title).not.toBe('')
      },
    )
  },
)
