/** Words of shell in one form. */
import type { ScriptWord } from '../reading/tree.ts'

/** A value as a word that a shell reads as just this value: in single quotes where it needs any. */
export function toQuoted(value: string): string {
  return /^[\w@%+=:,./-]+$/u.test(value) ? value : `'${value.replaceAll("'", `'\\''`)}'`
}

/** A word in one form: what is expanded, and a pattern, as written; all else by its value. */
export function toWordText(word: ScriptWord): string {
  const { value, text, isPattern } = word
  if (value === null || isPattern || /^~/u.test(text)) return text
  return toQuoted(value)
}

const reserved =
  /^(?:if|then|else|elif|fi|do|done|case|esac|while|until|for|in|select|function|time|coproc|\{|\}|!|\[\[|\]\])$/u

/** A word in the place of a command's name, where some words mean something else without quotes. */
export function toNameText(word: ScriptWord): string {
  const text = toWordText(word)
  const isOther = reserved.test(text) || /^[A-Za-z_]\w*\+?=/u.test(text)
  return isOther && word.value !== null ? `'${text}'` : text
}
