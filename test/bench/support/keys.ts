/** How long a key takes until its frame is drawn, while nothing else goes on and while something does. */
import type { Page } from '@playwright/test'

/** Begins to note, for every key that is pressed, the milliseconds from its event to behind the next frame. */
export async function noteKeys(page: Page): Promise<void> {
  await page.evaluate(() => {
    const noted: number[] = []
    ;(window as unknown as { keysNoted: number[] }).keysNoted = noted
    window.addEventListener(
      'keydown',
      (event) => {
        const pressed = event.timeStamp
        requestAnimationFrame(() => {
          const { port1, port2 } = new MessageChannel()
          port1.onmessage = () => noted.push(performance.now() - pressed)
          port2.postMessage(null)
        })
      },
      true,
    )
  })
}

/** Types so many letters, one every 60 ms, and gives what each took, in milliseconds. */
export async function typeAndNote(page: Page, letters: number): Promise<number[]> {
  const take = (): Promise<number[]> =>
    page.evaluate(() => (window as unknown as { keysNoted: number[] }).keysNoted.splice(0))
  await take()
  await page.keyboard.type('weather logger on the roof '.repeat(Math.ceil(letters / 27)).slice(0, letters), {
    delay: 60,
  })
  await page.waitForTimeout(200)
  return take()
}

/** The value that this share of the numbers does not exceed; NaN of none. */
export function quantile(numbers: readonly number[], share: number): number {
  const sorted = [...numbers].sort((one, other) => one - other)
  return sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? Number.NaN
}
