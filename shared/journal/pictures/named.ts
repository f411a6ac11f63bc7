/** Kept pictures as a text names them: `![description](sha256:<hex> "name of the file")`. */
import { visit } from 'unist-util-visit'
import { maybeBlobNamed } from '../../markdown/addresses.ts'
import { maybeTree } from '../../markdown/parse.ts'
import { applyReplacements, type Replacement } from '../tidy/edits.ts'

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
  return imagesIn(text).map(({ picture }) => picture)
}

/**
 * What gives a picture of a text another description: the words between its brackets alone, so that the rest of the text
 * keeps the identity of its characters.
 * @param at its place among `picturesIn` of the text
 * @returns null where there is no such picture
 */
export function describingOf(text: string, at: number, description: string): Replacement | null {
  const image = imagesIn(text)[at]
  if (!image) return null
  const { from, to, picture } = image
  const raw = text.slice(from, to)
  const words = { from: from + 2, to: from + raw.lastIndexOf(']('), insert: toPictureWords(description) }
  const described = picturesIn(applyReplacements(text, words.to < words.from ? [] : [words]))[at]
  const isRead = described?.sha256 === picture.sha256 && described.description === oneLine(description)
  // A title may hold the very signs that end the words.
  return isRead ? words : { from, to, insert: toPictureMarkdown({ ...picture, description }) }
}

interface Image {
  readonly picture: NamedPicture
  readonly from: number
  readonly to: number
}

function imagesIn(text: string): Image[] {
  if (!text.includes('sha256:')) return []
  const found: Image[] = []
  const tree = maybeTree(text)
  if (!tree) return found
  visit(tree, 'image', ({ url, alt, title, position }) => {
    const sha256 = maybeBlobNamed(url)
    const [from, to] = [position?.start.offset, position?.end.offset]
    if (sha256 !== undefined && from !== undefined && to !== undefined)
      found.push({ picture: { sha256, description: alt ?? '', name: title ?? '' }, from, to })
  })
  return found
}
