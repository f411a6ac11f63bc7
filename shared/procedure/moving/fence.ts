/** The fence that is open at a place of a text, so that it can be closed there and opened again. CommonMark 0.31.2 §4.5. */

export interface OpenFence {
  /** Backticks or tildes. */
  readonly mark: string
  readonly info: string
}

/** @returns null where no fence is open; a place in the line that opens or closes one is in none */
export function fenceOpenAt(text: string, at: number): OpenFence | null {
  let open: OpenFence | null = null
  let start = 0
  for (const line of text.split('\n')) {
    const end = start + line.length
    if (at <= end) return open && !closes(line, open.mark) ? open : null
    if (open) {
      if (closes(line, open.mark)) open = null
    } else {
      // Only the info string of a tilde fence may hold backticks.
      const opening = /^ {0,3}(?:(`{3,})([^`]*)|(~{3,})(.*))$/.exec(line)
      if (opening) open = { mark: (opening[1] ?? opening[3])!, info: (opening[2] ?? opening[4] ?? '').trim() }
    }
    start = end + 1
  }
  return null
}

function closes(line: string, mark: string): boolean {
  const closing = /^ {0,3}(`{3,}|~{3,})[ \t]*$/.exec(line)
  return closing !== null && closing[1]![0] === mark[0] && closing[1]!.length >= mark.length
}
