/** Lines of `asked: word word …`; the asked part may be several words, and nothing may stand behind the colon. */
export function readWords(lines: string): readonly (readonly [string, readonly string[]])[] {
  return lines
    .trim()
    .split('\n')
    .map((line) => {
      const [asked = '', means = ''] = line.split(':')
      return [asked.trim(), means.split(' ').filter((word) => word !== '')] as const
    })
}
