/** Elements of SVG, and what is written to them. */

const SVG = 'http://www.w3.org/2000/svg'

export function make<K extends keyof SVGElementTagNameMap>(
  name: K,
  parent: Element,
  attributes: Readonly<Record<string, string>> = {},
): SVGElementTagNameMap[K] {
  const element = document.createElementNS(SVG, name)
  for (const [key, value] of Object.entries(attributes)) element.setAttribute(key, value)
  parent.append(element)
  return element
}

/** An attribute that is written only when it changes. */
export class Kept {
  private last = ''

  constructor(
    private readonly element: Element,
    private readonly name: string,
  ) {}

  write(value: string): void {
    if (value === this.last) return
    this.last = value
    this.element.setAttribute(this.name, value)
  }
}

/** The transform of what is not to be seen now. */
export const UNSEEN = 'scale(0)'

export function say(element: SVGTextElement, words: string): void {
  if (element.textContent !== words) element.textContent = words
}

let ownCanvas: SVGSVGElement | null = null

/** Makes the values that SVG elements are placed by. */
export const canvas = (): SVGSVGElement => (ownCanvas ??= document.createElementNS(SVG, 'svg'))
