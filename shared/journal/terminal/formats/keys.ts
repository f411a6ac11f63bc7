/**
 * Recordings that hold the keys pressed, where no timing file says so. script(1) can log them too: alone (`--log-in`), or
 * between the output (`--log-io`), where each key stands before its echo: `llss  --ll`, and Enter as CR CR LF. Passwords
 * stand in both, so neither is read any further.
 */
import { joinBytes, Pending, toAscii } from './bytes.ts'

/** Looks at a session's bytes as they pass. */
export class KeysWatch {
  private readonly typed = new TypedOnly()
  private readonly between = new TypedBetween()

  /** Gives what may be shown now, or says that keys are in it. */
  push(bytes: Uint8Array): Uint8Array | 'keys' {
    const passed = this.typed.push(bytes)
    return passed !== 'keys' && this.between.isFoundIn(passed) ? 'keys' : passed
  }

  end(): Uint8Array | 'keys' {
    return this.typed.end()
  }
}

/** So many bytes of a session without a line feed and without a sequence that only a program sends are keys. */
const mostUndecided = 2048
/** A line feed, or a sequence of ECMA-48 or xterm that programs send and keyboards do not. */
// eslint-disable-next-line no-control-regex -- control characters are what is looked for
const ofScreen = /\n|\u001b(?:\[[0-9;?>=]*[mhlKJrXPnqst]|[\]78=>()])/
/** Enter, Backspace, Ctrl+C or Ctrl+D. */
// eslint-disable-next-line no-control-regex -- control characters are what is looked for
const ofKeys = /[\r\u007f\u0003\u0004]/

class TypedOnly {
  private readonly pending = new Pending()
  private isDecided = false

  push(bytes: Uint8Array): Uint8Array | 'keys' {
    if (this.isDecided) return bytes
    this.pending.add(bytes)
    return this.decide(this.pending.bytes.length >= mostUndecided)
  }

  end(): Uint8Array | 'keys' {
    return this.isDecided ? this.pending.take() : this.decide(true)
  }

  private decide(isEnough: boolean): Uint8Array | 'keys' {
    const text = toAscii(this.pending.bytes.subarray(0, mostUndecided))
    const isShown = ofScreen.test(text)
    if (!isShown && !isEnough) return this.pending.take(0)
    this.isDecided = true
    return isShown || !ofKeys.test(text) || isProgress(text) ? this.pending.take() : 'keys'
  }
}

/** A line that a program writes over again and again begins alike each time. */
function isProgress(text: string): boolean {
  const states = text.split('\r').filter((state) => state.length >= 3)
  const last = states.at(-2)?.slice(0, 3)
  return states.length >= 3 && states.slice(1, -1).every((state) => state.slice(0, 3) === last)
}

/** Fewer pairs of equal characters than this, or fewer different ones, also stand in what programs write. */
const fewest = { pairs: 4, different: 3 }
const longestTyped = 512

class TypedBetween {
  private before: Uint8Array = new Uint8Array(0)

  isFoundIn(passed: Uint8Array): boolean {
    const bytes = this.before.length === 0 ? passed : joinBytes([this.before, passed])
    for (let at = bytes.indexOf(10); at !== -1; at = bytes.indexOf(10, at + 1))
      if (bytes[at - 1] === 13 && bytes[at - 2] === 13 && isDoubled(bytes, at - 3)) return true
    this.before = bytes.slice(-longestTyped)
    return false
  }
}

/** Says whether every character up to a place, as far back as a command goes, stands twice. */
function isDoubled(bytes: Uint8Array, last: number): boolean {
  const different = new Set<number>()
  let pairs = 0
  for (let at = last; at > 0 && bytes[at]! >= 32 && bytes[at] === bytes[at - 1]; at -= 2) {
    different.add(bytes[at]!)
    pairs += 1
  }
  return pairs >= fewest.pairs && different.size >= fewest.different
}
