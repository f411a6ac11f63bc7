/**
 * The original as it is shown, checked on pages that Chromium saved as MHTML (RFC 2557): nothing that runs or leads
 * anywhere is left of them, and no word is lost.
 */
import { existsSync, readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { parse, type DefaultTreeAdapterTypes as Tree } from 'parse5'
import { describe, expect, test } from 'vitest'
import { decodeHtml } from '../../shared/intake/decode.ts'
import { decodeBody, maybeMimeMessage } from '../../shared/intake/mime.ts'
import { maybeRoot } from '../../shared/intake/web-archive.ts'
import { toOriginal } from '../../shared/sources/original.ts'

const standards = process.env['STANDARDS_DIR'] ?? join(import.meta.dirname, '../../../shared/standards')
const folder = join(standards, 'html-mhtml')
const files = existsSync(folder)
  ? readdirSync(folder, { recursive: true })
      .map(String)
      .filter((name) => /\.mht(?:ml)?$/u.test(name))
  : []

function walk(node: Tree.Node, look: (node: Tree.Node) => boolean): void {
  if (!look(node) || !('childNodes' in node)) return
  for (const child of node.childNodes) walk(child, look)
}

const unread = new Set([
  'script',
  'style',
  'title',
  'template',
  'iframe',
  'textarea',
  'select',
  'button',
  'option',
  'canvas',
  'object',
  'audio',
  'video',
  'dialog',
  'noframes',
])

function wordsOf(html: string): string {
  const words: string[] = []
  walk(parse(html, { scriptingEnabled: false }), (node) => {
    if ('value' in node) words.push(node.value)
    // The words of a picture that is not in the file are shown in its place.
    if ('tagName' in node && node.tagName === 'img')
      words.push(node.attrs.find(({ name }) => name === 'alt')?.value ?? '')
    return !('tagName' in node && unread.has(node.tagName))
  })
  return words.join('').replace(/\s+/gu, ' ').trim()
}

describe.skipIf(files.length === 0)('originals of pages that Chromium saved', () => {
  test.each(files)('%s is shown with all its words and with nothing that acts', async (name) => {
    const bytes = new Uint8Array(readFileSync(join(folder, name)))
    const message = await maybeMimeMessage(bytes)
    const root = message && maybeRoot(message)
    const original = await toOriginal(bytes, 'multipart/related', 'n0nce')
    if (!root) return expect(original.kind).toBe('not shown')
    if (original.kind !== 'page') throw new Error(original.kind)
    const html = decodeHtml(await decodeBody(root), root.parameters.get('charset')).text
    expect(wordsOf(original.html)).toBe(wordsOf(html))
    walk(parse(original.html, { scriptingEnabled: false }), (node) => {
      if (!('tagName' in node)) return true
      expect(['script', 'iframe', 'object', 'embed', 'base', 'link', 'form', 'input']).not.toContain(
        node.tagName,
      )
      for (const { name: attribute, value } of node.attrs) {
        expect(attribute).not.toMatch(/^on|^(?:href|srcset|action|style)$/u)
        if (attribute === 'src') expect(value).toMatch(/^data:image\/(?:png|jpeg|gif|webp);base64,/u)
      }
      return true
    })
  })
})
