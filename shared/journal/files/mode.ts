/** A file's mode as chmod(1) takes it and as ls(1) shows it (POSIX.1-2017, "chmod" and "ls"). */

const kinds = '-dlcbpsDCMnP?'
/** What ls shows of one class: with a set-id or sticky bit in the place of `x`. */
const shownMode = new RegExp(
  `^[${kinds.replace('?', '\\?').replace('-', '\\-')}]?([r-][w-][xsS-])([r-][w-][xsS-])([r-][w-][xtT-])[.+@]?$`,
)

/**
 * A mode in octal digits, as `0644`, of octal digits (one to four; a fifth in front may be 0) or of what ls shows
 * (`rwxr-sr-x`, with or without the kind of file before it). Undefined for all else.
 */
export function maybeMode(text: string): string | undefined {
  if (/^0?[0-7]{1,4}$/.test(text)) return text.slice(-4).padStart(4, '0')
  const classes = shownMode.exec(text)?.slice(1)
  if (!classes) return undefined
  const digits = classes.map((three) => {
    return (three[0] === 'r' ? 4 : 0) + (three[1] === 'w' ? 2 : 0) + (/[xst]/.test(three[2]!) ? 1 : 0)
  })
  const special = classes.reduce((sum, three, at) => sum + (/[sStT]/.test(three[2]!) ? 4 >> at : 0), 0)
  return [special, ...digits].join('')
}

/**
 * A mode as ls shows it, without the kind of file: `rwxr-xr-x`.
 * @throws RangeError when the mode is not of octal digits
 */
export function shownModeOf(mode: string): string {
  const octal = /^[0-7]{1,4}$/.test(mode) ? mode.padStart(4, '0') : undefined
  if (octal === undefined) throw new RangeError(`${mode} is no mode`)
  const [special, ...classes] = Array.from(octal, Number) as [number, number, number, number]
  return classes
    .map((digit, at) => shownClass(digit, (special & (4 >> at)) !== 0, at === 2 ? 't' : 's'))
    .join('')
}

function shownClass(digit: number, isSpecial: boolean, letter: string): string {
  const isRun = (digit & 1) !== 0
  const last = isSpecial ? (isRun ? letter : letter.toUpperCase()) : isRun ? 'x' : '-'
  return `${digit & 4 ? 'r' : '-'}${digit & 2 ? 'w' : '-'}${last}`
}
