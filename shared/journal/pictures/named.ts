/** Kept pictures as a text names them: `![description](sha256:<hex> "name of the file")`. */
import { visit } from 'unist-util-visit'
import { maybeBlobNamed } from '../../markdown/addresses.ts'
import { maybeTree } from '../../markdown/parse.ts'

export interface NamedPicture {
  /** Lower-case hex SHA-256 of the bytes. */
  readonly sha256: string
  /** What is to be seen; empty where nobody has said it yet. */
  readonly description: string
  /** The name of the file that it came from; empty where it had none. */
  readonly name: string
}

/** The Markdown that shows a kept picture (CommonMark 0.31.2 §6.4). */
export function toPictureMarkdown({ sha256, description, name }: NamedPicture): string {
  const title = oneLine(name)
  const behind = title === '' ? '' : ` "${title.replace(/[\\"&]/g, '\\$&')}"`
  return `![${toPictureWords(description)}](sha256:${sha256}${behind})`
}

/** A description as it stands between the brackets: in one line, and nothing in it read as Markdown. */
export function toPictureWords(description: string): string {
  return oneLine(description).replace(/[\\[\]*_`<>&!~|:@]/g, '\\$&')
}

const oneLine = (text: string): string => text.replace(/\s+/gu, ' ').trim()

/** The kept pictures that a text shows, in order. */
export function picturesIn(text: string): NamedPicture[] {
  if (!text.includes('sha256:')) return []
  const found: NamedPicture[] = []
  const tree = maybeTree(text)
  if (!tree) return found
  visit(tree, 'image', ({ url, alt, title }) => {
    const sha256 = maybeBlobNamed(url)
    if (sha256 !== undefined) found.push({ sha256, description: alt ?? '', name: title ?? '' })
  })
  return found
}
