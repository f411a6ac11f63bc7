/** Fragments on the way: out of a text into a drag or the clipboard, and in again where they land. */
import {
  FRAGMENT_TYPE,
  fragmentToJson,
  readFragment,
  wordsOfFragment,
  type Fragment,
} from '../../shared/distil/fragment.ts'
import { toStorableText } from '../../shared/lab/text.ts'
import { CUT_TYPE, readCutWords, type CutWords } from '../../shared/procedure/moving/cut.ts'

/** The words that go with a fragment for other programs. */
function plainOf(fragment: Fragment): string {
  return wordsOfFragment(fragment) || [fragment.title, fragment.address].filter(Boolean).join('\n')
}

/** Puts a fragment into a drag or a copy, and its words for other programs. */
export function writeFragment(to: DataTransfer, fragment: Fragment): void {
  const words = plainOf(fragment)
  to.setData(FRAGMENT_TYPE, fragmentToJson(fragment))
  to.setData('text/plain', words)
  to.setData('text/markdown', words)
}

/** Whether a drag or paste brings a fragment of ours. Its content cannot be read before it is dropped. */
export function bringsFragment(from: DataTransfer | null): boolean {
  return from?.types.includes(FRAGMENT_TYPE) ?? false
}

/** Whether a drag brings something from outside that can become a source. */
export function bringsMatter(from: DataTransfer | null): boolean {
  if (!from || bringsFragment(from)) return false
  return ['Files', 'text/html', 'text/uri-list', 'text/plain'].some((type) => from.types.includes(type))
}

/**
 * The fragment on the clipboard. null where there is none of ours, and where the words beside it are not its own: another
 * program may have put others there and left ours. A clipboard may turn line ends into those of its system.
 */
export function takePasted(from: DataTransfer | null): Fragment | null {
  const fragment = takeFragment(from)
  return fragment && toStorableText(from!.getData('text/plain')) === plainOf(fragment) ? fragment : null
}

/** The fragment that was dropped or pasted; null where it is none of ours. */
export function takeFragment(from: DataTransfer | null): Fragment | null {
  const json = from?.getData(FRAGMENT_TYPE)
  return json ? readFragment(json) : null
}

/** Puts words that are cut out into the clipboard, so that they can be put in elsewhere with all that is linked to them. */
export function writeCut(to: DataTransfer, cut: CutWords): void {
  to.setData(CUT_TYPE, JSON.stringify(cut))
  to.setData('text/plain', cut.words)
  to.setData('text/markdown', cut.words)
}

/** The cut words on the clipboard; null where there are none of ours, or others were put beside them. */
export function takeCut(from: DataTransfer | null): CutWords | null {
  const json = from?.getData(CUT_TYPE)
  const cut = json ? readCutWords(json) : null
  return cut && toStorableText(from!.getData('text/plain')) === cut.words ? cut : null
}

/** Whether what is pasted brings where its words are from. */
export const bringsOrigin = (from: DataTransfer | null): boolean =>
  takePasted(from) !== null || takeCut(from) !== null

/** The same things to paste again, later. */
export function copyOfPasted(from: DataTransfer): DataTransfer {
  const copy = new DataTransfer()
  for (const type of [FRAGMENT_TYPE, CUT_TYPE, 'text/plain', 'text/markdown']) {
    const data = from.getData(type)
    if (data !== '') copy.setData(type, data)
  }
  return copy
}
