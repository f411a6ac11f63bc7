/** Dates that a document states of itself, in the forms of ISO 8601 that a person would type. */

/** Whether a text is a year, a month or a day of the calendar: 2024, 2024-05, 2024-05-17. */
export function isStatedDate(text: string): boolean {
  const found = /^(\d{4})(?:-(\d{2})(?:-(\d{2}))?)?$/u.exec(text)
  if (!found) return false
  const [, year, month = '01', day = '01'] = found
  const time = new Date(`${year}-${month}-${day}T00:00:00Z`)
  // The engine takes the 31st of a short month for the first of the next.
  return !Number.isNaN(time.getTime()) && time.toISOString().startsWith(`${year}-${month}-${day}`)
}
