/** Whether the person is typing somewhere outside of an element; their focus is then left where it is. */
export function isTypingOutside(element: HTMLElement): boolean {
  const { activeElement } = document
  if (!(activeElement instanceof HTMLElement) || element.contains(activeElement)) return false
  if (activeElement instanceof HTMLInputElement || activeElement instanceof HTMLTextAreaElement) return true
  return activeElement.isContentEditable && activeElement.getAttribute('aria-readonly') !== 'true'
}
