/** The system's clipboard, which the page itself may not read. */
import { clipboard } from 'electron'
import { done, failed, type HostAnswer, type HostResult } from '../shared/host.ts'
import { addressForms, addressOfClipboard, type AddressForm } from '../shared/intake/clipboard-address.ts'

/** As older Electrons have it; newer ones ask as the web does. */
interface OlderClipboard {
  readBuffer(form: string): Uint8Array
  readHTML(): string
  readText(): string
  readImage(): { isEmpty(): boolean; toPNG(): Uint8Array }
}

const older = (): OlderClipboard | null =>
  'readBuffer' in clipboard ? (clipboard as unknown as OlderClipboard) : null

/** What another program put there; see the contract. */
export async function readClipboard(): Promise<HostResult<HostAnswer<'readClipboard'>>> {
  try {
    const old = older()
    return done(old ? readOlder(old) : await readNewer())
  } catch {
    const sentence =
      'The system did not let the clipboard be read. Nothing was changed. Click on the list of sources and press Ctrl+V, or drop it there.'
    return failed('not read', sentence)
  }
}

function readOlder(old: OlderClipboard): HostAnswer<'readClipboard'> {
  const image = old.readImage()
  const picture = image.isEmpty() ? null : new Uint8Array(image.toPNG())
  return { html: old.readHTML(), text: old.readText(), picture }
}

async function readNewer(): Promise<HostAnswer<'readClipboard'>> {
  const items = await clipboard.read()
  const find = async (type: string): Promise<Blob | null> => {
    const item = items.find(({ types }) => types.includes(type))
    const content = await item?.getType(type)
    return content instanceof Blob ? content : null
  }
  const picture = await find('image/png')
  return {
    html: (await (await find('text/html'))?.text()) ?? '',
    text: (await (await find('text/plain'))?.text()) ?? '',
    picture: picture && new Uint8Array(await picture.arrayBuffer()),
  }
}

/** The page that the HTML on the clipboard is from; see the contract. */
export async function findClipboardAddress(): Promise<HostResult<HostAnswer<'findClipboardAddress'>>> {
  const found = new Map<AddressForm, Uint8Array | null>()
  for (const form of addressForms) found.set(form, await maybeForm(form).catch(() => null))
  return done({ address: addressOfClipboard((form) => found.get(form) ?? null) })
}

/** A form's bytes, null where the clipboard has none. */
async function maybeForm(form: AddressForm): Promise<Uint8Array | null> {
  const old = older()
  if (old) return new Uint8Array(old.readBuffer(form))
  const type = `electron application/osclipboard;format="${form}"`
  if (!(await clipboard.has(type))) return null
  const [item] = await clipboard.read()
  const content = await item?.getType(type)
  return content instanceof Blob ? new Uint8Array(await content.arrayBuffer()) : null
}
