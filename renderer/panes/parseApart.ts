/** A start tag (HTML standard §13.1.2.1): its name, and attributes with values that may hold `>` in quotes. */
const startTag = /<([a-z][^\s/>]*)(?:"[^"]*"|'[^']*'|[^'">])*>/giu

/**
 * Parses HTML of another program into a document that is never shown, for its words. Nothing of it is run or fetched.
 * Attributes are left out: nothing here needs them, and the page's policy reports each event handler that is parsed.
 */
export function parseApart(html: string): Document {
  const parsed = new DOMParser().parseFromString(html.replace(startTag, '<$1>'), 'text/html')
  for (const element of parsed.querySelectorAll('script, style, template, noscript')) element.remove()
  return parsed
}
