/** Reading the clipboard in a browser, by its Clipboard API; the browser may ask the person first. */
import { done, failed, type HostAnswer, type HostResult } from '../../shared/host.ts'

const sentence =
  'The browser did not let the clipboard be read. Nothing was changed. Click on the list of sources and press Ctrl+V, or drop it there.'

/** What other programs put there. */
export async function readClipboard(
  clipboard: Pick<Clipboard, 'read'>,
): Promise<HostResult<HostAnswer<'readClipboard'>>> {
  try {
    const items = await clipboard.read()
    const find = async (type: string): Promise<Blob | undefined> =>
      items.find(({ types }) => types.includes(type))?.getType(type)
    const picture = await find('image/png')
    return done({
      html: (await (await find('text/html'))?.text()) ?? '',
      text: (await (await find('text/plain'))?.text()) ?? '',
      picture: picture ? new Uint8Array(await picture.arrayBuffer()) : null,
    })
  } catch {
    return failed('not read', sentence)
  }
}
