/** A countdown that can be held and let run again, and says when it has ended. Times in milliseconds. */
export interface Countdown {
  /** Stops the time; what is left is kept. */
  hold(): void
  /** Lets the time run on from what is left. */
  run(): void
  /** Ends it without a word. */
  stop(): void
}

export interface CountdownClock {
  now(): number
  setTimer(call: () => void, ms: number): number
  clearTimer(timer: number): void
}

export const windowClock: CountdownClock = {
  now: () => performance.now(),
  setTimer: (call, ms) => window.setTimeout(call, ms),
  clearTimer: (timer) => window.clearTimeout(timer),
}

/** Starts running at once. */
export function createCountdown(
  ms: number,
  onEnd: () => void,
  clock: CountdownClock = windowClock,
): Countdown {
  let left = ms
  let since = 0
  let timer: number | null = null
  const hold = () => {
    if (timer === null) return
    clock.clearTimer(timer)
    timer = null
    left -= clock.now() - since
  }
  const run = () => {
    if (timer !== null) return
    since = clock.now()
    timer = clock.setTimer(onEnd, Math.max(0, left))
  }
  run()
  return { hold, run, stop: hold }
}
