/** Pasting by a button, for those without a keyboard: the Clipboard API in the form of a DataTransfer. */
import type { Brought } from '../matter.ts'

type Read =
  { readonly ok: true; readonly brought: Brought } | { readonly ok: false; readonly sentence: string }

const refused: Read = {
  ok: false,
  sentence:
    'The system did not let the clipboard be read. Nothing was changed. Click on the list of sources and press Ctrl+V, or drop it there.',
}

/** Reads what other programs put on the clipboard; a refusal of the system is a sentence. */
export async function readClipboard(clipboard: Pick<Clipboard, 'read'>): Promise<Read> {
  try {
    const items = await clipboard.read()
    const forms = new Map<string, string>()
    const files: File[] = []
    for (const item of items)
      for (const type of item.types) {
        const blob = await item.getType(type)
        if (type.startsWith('image/')) files.push(new File([blob], `image.${type.slice(6)}`, { type }))
        else forms.set(type, await blob.text())
      }
    return { ok: true, brought: { getData: (type) => forms.get(type) ?? '', files } }
  } catch {
    return refused
  }
}
