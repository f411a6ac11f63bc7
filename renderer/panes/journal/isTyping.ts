/** Whether the keyboard is in a text that is being written, which nothing may take it away from. */
export function isTyping(element: Element | null): boolean {
  if (!(element instanceof HTMLElement)) return false
  if (element.matches('input, textarea, select')) return true
  return element.isContentEditable && element.getAttribute('aria-readonly') !== 'true'
}

/** Whether a key belongs to an editor or to the field for tags within an entry. */
export function isInEditor(target: EventTarget): boolean {
  return target instanceof Element && target.closest('.st-amend, .st-tags') !== null
}
