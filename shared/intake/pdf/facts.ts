/** What a PDF's document information (ISO 32000-1 §14.3.3) says, as far as it is worth keeping. */
import { toTitle } from '../text.ts'

export type Info = Readonly<Record<string, unknown>>

const noTitle =
  /^(?:\(?(?:untitled|anonymous|unspecified|none|null|unknown|title|document\d*|default)\)?(?:[\s-]*\d*)?|microsoft (?:word|powerpoint|excel)\b.*|.*\.(?:docx?|pdf|tex|dvi|odt|ods|odp|pptx?|xlsx?|ps|eps|fm|indd|qxd|rtf|txt|x?html?|xml|fo|md|rst|adoc|texi|sgml|mif))$/iu

/** The title, where it is one that a person gave it; undefined for the names of files and the words of programs. */
export function maybeTitle(info: Info): string | undefined {
  const title = textOf(info['Title'])
  return title.length < 3 || !/\p{L}/u.test(title) || noTitle.test(title) ? undefined : title
}

const noAuthor = /^\(?(?:unknown|anonymous|unspecified|none|null|root|user|admin(?:istrator)?|author)\)?$/iu

/** Who wrote it, one line; null where the file does not say. */
export function authorOf(info: Info): string | null {
  const author = textOf(info['Author'])
  return author === '' || !/\p{L}/u.test(author) || noAuthor.test(author) ? null : author
}

function textOf(value: unknown): string {
  return typeof value === 'string' ? toTitle(value.replace(/[\0\p{Surrogate}]/gu, '')) : ''
}

const form = /^(?:D:)?(\d{4})(\d{2})?(\d{2})?(?:(\d{2})(\d{2})?(\d{2})?)?(?:(Z)|([+-])(\d{2})'?(\d{2})?)?/u

/** ISO 32000-1 §7.9.4: a date of which all but the year may be left out, in ISO 8601; null where it is none. */
export function datedOf(info: Info): string | null {
  const found = typeof info['CreationDate'] === 'string' ? form.exec(info['CreationDate'].trim()) : null
  if (!found) return null
  const [, year, month, day, hour, minute = '00', second = '00', utc, sign, zoneHour, zoneMinute = '00'] =
    found
  if (month === undefined) return Number(year) >= 1980 ? year! : null
  const at = new Date(Date.UTC(Number(year), Number(month) - 1, Number(day ?? 1)))
  const isDate =
    Number(year) >= 1980 && at.getUTCMonth() === Number(month) - 1 && at.getUTCDate() === Number(day ?? 1)
  if (!isDate) return null
  if (day === undefined) return `${year}-${month}`
  const isTime = hour !== undefined && Number(hour) < 24 && Number(minute) < 60 && Number(second) < 60
  if (!isTime) return `${year}-${month}-${day}`
  const isZone = sign !== undefined && Number(zoneHour) < 24 && Number(zoneMinute) < 60
  const zone = utc ? 'Z' : isZone ? `${sign}${zoneHour}:${zoneMinute}` : ''
  return `${year}-${month}-${day}T${hour}:${minute}:${second}${zone}`
}
