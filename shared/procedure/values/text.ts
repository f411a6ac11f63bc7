/** Free text and secrets: anything that can stand in a command's line. What is said of a secret never repeats any of it. */
import { right, wrong, type TypeOfValue, type ValueCheck } from './types.ts'

const unseen = /[^\P{Cc}\n\t]|[\p{Cf}\p{Zl}\p{Zp}]/u

function checkText(text: string): ValueCheck {
  if (/[^\P{Cc}\n\t]/u.test(text))
    return wrong('form', 'There is a control character in it, which nobody can see.')
  if (text.includes('\n')) return right('It has more than one line; a command that takes it may not.')
  if (unseen.test(text)) return right('There is a character in it that nobody can see.')
  return right(text === text.trim() ? null : 'It begins or ends with a blank, which is easily lost.')
}

export const freeText: TypeOfValue = { check: checkText, canonical: () => null, example: 'Roof station' }

function checkSecret(text: string): ValueCheck {
  if (/[\n\t]|[^\P{Cc}]/u.test(text))
    return wrong(
      'form',
      'There is a line end or a control character in it; it may have come along from the clipboard.',
    )
  return right(
    text === text.trim()
      ? null
      : 'It begins or ends with a blank. If that came along from the clipboard, take it away.',
  )
}

/** No example: a value that looks like one would be taken for one. */
export const secret: TypeOfValue = { check: checkSecret, canonical: () => null, example: '' }
