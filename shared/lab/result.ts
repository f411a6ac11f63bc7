/** Expected failures are values. A bug throws instead, and a cancelled call is neither. */
export type Result<T, F extends Failure = Failure> = { readonly ok: true; readonly value: T } | F

/** What went wrong, for the program (`code`) and for the person (`sentence`: what happened, what is safe, what to do). */
export interface Failure<Code extends string = string> {
  readonly ok: false
  readonly code: Code
  readonly sentence: string
}

export function succeed<T>(value: T): { readonly ok: true; readonly value: T } {
  return { ok: true, value }
}

export function fail<Code extends string>(code: Code, sentence: string): Failure<Code> {
  return { ok: false, code, sentence }
}
