/** Kinds of events that no component listens for, kept from React. */

/**
 * React listens at its root for every kind of event there is, once on the way down and once on the way up, and looks for
 * listeners all the way from where it happened. A key that is typed is five events: of these, three kinds are listened for
 * by nobody here (a lint rule sees to that; editors listen on their own elements).
 */
export const unheardKinds: ReadonlySet<string> = new Set(['keypress', 'keyup', 'textInput'])

/**
 * Has an element leave these kinds out from now on.
 * @param root the element that React will be given
 * @returns the same element
 */
export function withoutUnheard(root: HTMLElement): HTMLElement {
  const listen = root.addEventListener.bind(root) as EventTarget['addEventListener']
  root.addEventListener = ((kind, ...rest) => {
    if (!unheardKinds.has(kind)) listen(kind, ...rest)
  }) as EventTarget['addEventListener']
  return root
}
