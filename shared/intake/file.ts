import { intakeHtml } from './html.ts'
import type { Intake } from './taken.ts'
import { intakeText } from './text.ts'

const htmlName = /\.(?:html?|xhtml|xht)$/iu
const textName = /\.(?:md|markdown|mdown|mkd|txt|text|log|conf|cfg|ini|json|ya?ml|toml|sh|csv)$/iu
const htmlStart =
  /^(?:\ufeff|\u00ef\u00bb\u00bf)?\s*(?:<!--[^]*?-->\s*|<\?xml[^>]*>\s*)*<(?:!doctype\s+html|html)[\s>]/iu

/**
 * Takes in a file by its name's ending, or by how it begins where the ending says nothing.
 * @returns what was taken in, or a refusal with a sentence for the person; the file itself is never changed
 */
export function intakeFile(name: string, bytes: Uint8Array): Intake {
  const isHtml = htmlName.test(name) || (!textName.test(name) && htmlStart.test(beginning(bytes)))
  return isHtml ? intakeHtml(name, bytes) : intakeText(name, bytes)
}

function beginning(bytes: Uint8Array): string {
  return Array.from(bytes.subarray(0, 1024), (byte) => String.fromCharCode(byte)).join('')
}
