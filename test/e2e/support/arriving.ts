/** What comes from outside: files that are dropped, and forms that another program put on the clipboard. */
import type { Locator, Page } from '@playwright/test'

export interface BroughtFile {
  readonly name: string
  readonly bytes: Uint8Array
  /** Media type, as the system guesses it from the name. */
  readonly type?: string
}
export interface Brought {
  readonly files?: readonly BroughtFile[]
  /** Other forms, by media type. */
  readonly forms?: Readonly<Record<string, string>>
}

/** Drops what is brought on an element, with the events that a real drag from outside makes. */
export async function dropOn(target: Locator, { files = [], forms = {} }: Brought): Promise<void> {
  const packed = files.map(({ name, bytes, type = '' }) => ({
    name,
    type,
    base64: Buffer.from(bytes).toString('base64'),
  }))
  await target.evaluate(
    (element, { packed, forms }) => {
      const dataTransfer = new DataTransfer()
      for (const { name, type, base64 } of packed) {
        const bytes = Uint8Array.from(atob(base64), (sign) => sign.charCodeAt(0))
        dataTransfer.items.add(new File([bytes], name, { type }))
      }
      for (const [type, text] of Object.entries(forms)) dataTransfer.setData(type, text)
      const box = element.getBoundingClientRect()
      const place = { clientX: box.left + box.width / 2, clientY: box.top + box.height / 2 }
      for (const type of ['dragenter', 'dragover', 'drop'])
        element.dispatchEvent(
          new DragEvent(type, { ...place, dataTransfer, bubbles: true, cancelable: true, composed: true }),
        )
    },
    { packed, forms },
  )
}

/** Puts forms on the clipboard as another program would, unclean ones too, and pastes them where the focus is. */
export async function paste(page: Page, forms: Readonly<Record<string, string>>): Promise<void> {
  await page.evaluate((forms) => {
    const onCopy = (event: ClipboardEvent): void => {
      event.preventDefault()
      event.stopImmediatePropagation()
      for (const [type, text] of Object.entries(forms)) event.clipboardData?.setData(type, text)
    }
    window.addEventListener('copy', onCopy, { capture: true, once: true })
  }, forms)
  await page.keyboard.press('Control+c')
  await page.keyboard.press('Control+v')
}
