/** What stands in a read text in the place of signs that are hidden. */
import { WidgetType } from '@codemirror/view'

/** A few letters: a space for a line end, the sign that an entity means, a list's mark. */
export class LettersWidget extends WidgetType {
  constructor(
    readonly letters: string,
    readonly className = '',
    readonly label = '',
  ) {
    super()
  }

  override eq(other: LettersWidget): boolean {
    return other.letters === this.letters && other.className === this.className && other.label === this.label
  }

  toDOM(): HTMLElement {
    const span = document.createElement('span')
    span.textContent = this.letters
    if (this.className !== '') span.className = this.className
    if (this.label !== '') {
      span.setAttribute('role', 'img')
      span.setAttribute('aria-label', this.label)
    }
    return span
  }

  override ignoreEvent(): boolean {
    return false
  }
}

/** A picture whose bytes stand in the text. Its words are its description. */
export class PictureWidget extends WidgetType {
  constructor(
    readonly address: string,
    readonly words: string,
  ) {
    super()
  }

  override eq(other: PictureWidget): boolean {
    return other.address === this.address && other.words === this.words
  }

  toDOM(): HTMLElement {
    const picture = document.createElement('img')
    picture.className = 'st-r-img'
    picture.src = this.address
    picture.alt = this.words
    picture.draggable = false
    return picture
  }

  override ignoreEvent(): boolean {
    return false
  }
}

export class RuleWidget extends WidgetType {
  override eq(): boolean {
    return true
  }

  toDOM(): HTMLElement {
    const rule = document.createElement('span')
    rule.className = 'st-r-rule'
    return rule
  }

  override ignoreEvent(): boolean {
    return false
  }
}

/** Where a page of a paged document begins. */
export class PageWidget extends WidgetType {
  constructor(readonly label: string) {
    super()
  }

  override eq(other: PageWidget): boolean {
    return other.label === this.label
  }

  toDOM(): HTMLElement {
    const mark = document.createElement('div')
    mark.className = 'st-r-page'
    const words = document.createElement('span')
    words.textContent = `Page ${this.label}`
    mark.append(words)
    return mark
  }

  override ignoreEvent(): boolean {
    return false
  }
}
