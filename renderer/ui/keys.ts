/** Keys of the program that hold Alt and a letter. */

type Pressed = Pick<KeyboardEvent, 'altKey' | 'ctrlKey' | 'metaKey' | 'shiftKey' | 'code'>

/**
 * Whether Alt and this letter were pressed, and nothing else with them, wherever the letter stands on the keyboard.
 * @param letter in upper case
 */
export function isAltLetter({ altKey, ctrlKey, metaKey, shiftKey, code }: Pressed, letter: string): boolean {
  return altKey && !ctrlKey && !metaKey && !shiftKey && code === `Key${letter}`
}

/** Whether the quiet word at the end of a menu's line is a key. */
export function isKeys(hint: string | undefined): hint is string {
  return hint !== undefined && /^(?:(?:Ctrl|Alt|Shift)\+.*|\S|Enter|Delete)$/u.test(hint)
}
