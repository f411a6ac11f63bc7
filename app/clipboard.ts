/** The system's clipboard, as far as the page cannot read it. */
import { clipboard } from 'electron'
import { done, type HostAnswer, type HostResult } from '../shared/host.ts'
import { addressForms, addressOfClipboard, type AddressForm } from '../shared/intake/clipboard-address.ts'

/** The page that the HTML on the clipboard is from; see the contract. */
export async function findClipboardAddress(): Promise<HostResult<HostAnswer<'findClipboardAddress'>>> {
  const found = new Map<AddressForm, Uint8Array | null>()
  for (const form of addressForms) found.set(form, await maybeForm(form).catch(() => null))
  return done({ address: addressOfClipboard((form) => found.get(form) ?? null) })
}

/** A form's bytes, null where the clipboard has none. Newer Electrons ask as the web does, older ones by `readBuffer`. */
async function maybeForm(form: AddressForm): Promise<Uint8Array | null> {
  const older = clipboard as unknown as { readonly readBuffer?: (form: string) => Uint8Array }
  if (older.readBuffer !== undefined) return new Uint8Array(older.readBuffer(form))
  const type = `electron application/osclipboard;format="${form}"`
  if (!(await clipboard.has(type))) return null
  const [item] = await clipboard.read()
  const content = await item?.getType(type)
  return content instanceof Blob ? new Uint8Array(await content.arrayBuffer()) : null
}
