/** Headings: one form, with `#` signs and one blank behind them. A line that ends in a colon is a person's own choice. */
import type { Heading, Paragraph } from 'mdast'
import { spanOf, type Page } from './page.ts'
import { toEdit, type Edit, type Replacement } from './edits.ts'

export function arrangeHeadings(page: Page): Edit[] {
  return page.tree.children.flatMap((node): Edit[] => {
    const replacements =
      node.type === 'heading'
        ? [...(maybeUnderlined(page, node) ?? maybeWide(page, node) ?? [])]
        : node.type === 'paragraph'
          ? joinedIn(page, node)
          : []
    return replacements.length === 0 ? [] : [toEdit('heading', replacements)]
  })
}

/** A title with a line of `=` below it. One with `-` stays: machines draw such lines below their columns. */
function maybeUnderlined(page: Page, node: Heading): Replacement[] | null {
  const { first, last } = spanOf(node)
  const [title, under] = [page.lines[first]!, page.lines[last]!]
  if (last !== first + 1 || !/^ {0,3}=+[ \t]*$/u.test(under.text)) return null
  if (page.isFrozen(first) || page.isFrozen(last) || /[#\\]\s*$/u.test(title.text)) return null
  const [, indent = '', words = ''] = /^([ \t]*)(.*?)[ \t]*$/u.exec(title.text) ?? []
  const start = title.from + indent.length
  return [
    { from: start, to: start, insert: '# ' },
    { from: start + words.length, to: under.end, insert: '' },
  ]
}

/** `##   Title`: more than one blank. */
function maybeWide(page: Page, node: Heading): Replacement[] | null {
  const { first } = spanOf(node)
  const line = page.lines[first]!
  const match = /^( {0,3}#{1,6})([ \t]{2,}|\t)(?=[^\s#])/u.exec(line.text)
  if (!match || page.isFrozen(first)) return null
  const from = line.from + match[1]!.length
  return [{ from, to: from + match[2]!.length, insert: ' ' }]
}

/** `##Title`: no blank. Such a line parts the text above and below it once it is a heading. */
function joinedIn(page: Page, node: Paragraph): Replacement[] {
  const { first, last } = spanOf(node)
  const isJoined = (n: number): boolean => isJoinedHeading(page, n)
  const found: Replacement[] = []
  for (let n = first; n <= last; n += 1) {
    if (!isJoined(n)) continue
    const { from, end, text } = page.lines[n]!
    const [above, at] = [page.lines[n - 1], from + joined.exec(text)![0].length]
    // A heading above has made its own empty line.
    if (n > first && above && !isJoined(n - 1)) found.push({ from: above.end, to: above.end, insert: '\n' })
    found.push({ from: at, to: at, insert: ' ' })
    if (n < last) found.push({ from: end, to: end, insert: '\n' })
  }
  return found
}

/** Whether a line in a paragraph becomes a heading, where nothing else hinders it. */
export function isJoinedHeading(page: Page, n: number): boolean {
  return joined.test(page.lines[n]?.text ?? '') && !page.isFrozen(n)
}

const joined = /^ {0,3}#{2,6}(?=\p{Lu}\p{L})/u
