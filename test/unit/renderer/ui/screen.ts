/** A screen for component tests: draws into a page, and adds what the simulated page lacks of popovers and dialogs. */
import { act, type ReactNode } from 'react'
import { createRoot } from 'react-dom/client'

Object.assign(globalThis, { IS_REACT_ACT_ENVIRONMENT: true })

const open = new WeakSet<Element>()

/** The HTML Standard's popover methods, as far as the kit uses them; `:popover-open` is asked through `matches`. */
function addPopovers(): void {
  const plainMatches = Element.prototype.matches
  const toggle = (element: HTMLElement, newState: 'open' | 'closed') => {
    if (open.has(element) === (newState === 'open')) return
    if (newState === 'open') open.add(element)
    else open.delete(element)
    element.dispatchEvent(Object.assign(new Event('toggle'), { newState }))
  }
  Object.assign(HTMLElement.prototype, {
    showPopover(this: HTMLElement) {
      toggle(this, 'open')
    },
    hidePopover(this: HTMLElement) {
      toggle(this, 'closed')
    },
  })
  const matches = function (this: Element, selector: string): boolean {
    if (selector === ':popover-open') return open.has(this)
    if (selector === ':focus-visible') return this === document.activeElement
    return plainMatches.call(this, selector)
  }
  Object.assign(Element.prototype, { matches })
}
addPopovers()

export interface Screen {
  readonly page: HTMLElement
  draw(node: ReactNode): void
  /** The one element that the selector finds; throws where there is none. */
  find(selector: string): HTMLElement
  press(key: string, more?: KeyboardEventInit): void
  click(selector: string): void
  fire(selector: string, event: Event): void
  clear(): void
}

export function createScreen(): Screen {
  const page = document.createElement('div')
  document.body.append(page)
  const root = createRoot(page)
  const find = (selector: string) => {
    // Dialogs stand at the end of the page.
    const found = document.body.querySelector<HTMLElement>(selector)
    if (found === null) throw new Error(`nothing on the screen is ${selector}`)
    return found
  }
  return {
    page,
    find,
    draw: (node) => act(() => root.render(node)),
    press: (key, more = {}) =>
      act(() => {
        const event = new KeyboardEvent('keydown', { key, bubbles: true, cancelable: true, ...more })
        ;(document.activeElement ?? document.body).dispatchEvent(event)
      }),
    click: (selector) => act(() => find(selector).click()),
    fire: (selector, event) => act(() => void find(selector).dispatchEvent(event)),
    clear: () => {
      act(() => root.unmount())
      page.remove()
    },
  }
}
