/** Who wrote a page and when, as the page itself states it where programs look for it. Never guessed from its words. */
import type { Element, Root } from 'hast'
import { readMoment } from '../lab/moment.ts'
import { toOneLine } from '../markdown/words.ts'
import { attribute, findElement, outermostElements, textOf } from './elements.ts'
import { toTitle } from './text.ts'

export interface Stated {
  readonly author: string | null
  /** ISO 8601: a date, a month or a year, or a date with its time, as the page states it. */
  readonly dated: string | null
}

/**
 * The author and the date that a page states: in its `meta` elements (HTML Standard §4.2.5.1, Dublin Core as of RFC 5013,
 * Open Graph's `article`, the `citation_` names that libraries read), in JSON-LD (W3C; schema.org `author`,
 * `datePublished`), and in its article (`rel=author`, `time` in its head).
 */
export function readStated(tree: Root): Stated {
  const metas = readMetas(tree)
  const linked = linkedOf(tree)
  const say = (names: readonly string[]): readonly string[] => names.flatMap((name) => metas.get(name) ?? [])
  const authors =
    [say(authorNames), linked.authors, authorLinks(tree)].find((found) => found.some(isName)) ?? []
  const dates = [...say(dateNames), ...linked.dates, ...timesOfHead(tree)]
  const names = [...new Set(authors.filter(isName).map(toOneLine))]
  return {
    author: names.length > 0 ? toTitle(names.slice(0, 10).join(', ')) : null,
    dated: dates.map(maybeStated).find((date) => date !== undefined) ?? null,
  }
}

const authorNames = [
  'author',
  'article:author',
  'dcterms.creator',
  'dc.creator',
  'citation_author',
  'parsely-author',
]
const dateNames = [
  'article:published_time',
  'dcterms.issued',
  'dcterms.created',
  'dcterms.date',
  'dc.date.issued',
  'dc.date.created',
  'dc.date',
  'citation_publication_date',
  'citation_date',
  'datepublished',
  'date',
]

/** An address of a person's page is no name, and a placeholder neither. */
function isName(words: string): boolean {
  return (
    /\p{L}/u.test(words) &&
    !/^\s*https?:/iu.test(words) &&
    !/^\s*(?:unknown|anonymous|author|admin)\s*$/iu.test(words)
  )
}

function readMetas(tree: Root): ReadonlyMap<string, readonly string[]> {
  const metas = new Map<string, string[]>()
  for (const meta of outermostElements(tree, ({ tagName }) => tagName === 'meta')) {
    const content = attribute(meta, 'content')
    for (const key of ['name', 'property', 'itemProp']) {
      const name = attribute(meta, key)
        ?.toLowerCase()
        .replace(/^(dcterms|dc):/u, '$1.')
      if (name === undefined || content === undefined) continue
      metas.set(name, [...(metas.get(name) ?? []), content])
    }
  }
  return metas
}

interface Linked {
  readonly authors: readonly string[]
  readonly dates: readonly string[]
}

type Fields = Readonly<Record<string, unknown>>
/** Kinds of schema.org things that are a text as a whole; a page may also describe others, such as comments. */
const texts =
  /^(?:(?:Tech|News|Scholarly|Blog|SocialMedia)?(?:Article|Posting)|BlogPosting|WebPage|CreativeWork|HowTo|Report|Book|FAQPage|QAPage|APIReference|LearningResource)$/u
const mostLinked = 200

function linkedOf(tree: Root): Linked {
  const scripts = outermostElements(
    tree,
    (node) => node.tagName === 'script' && /^application\/ld\+json\b/iu.test(attribute(node, 'type') ?? ''),
  )
  const things = scripts.slice(0, 20).flatMap((script) => thingsOf(maybeJson(textOf(script))))
  const found = things.find((thing) => wordsIn(thing['@type']).some((type) => texts.test(type)))
  return { authors: namesIn(found?.['author']), dates: found ? wordsIn(found['datePublished']) : [] }
}

function maybeJson(text: string): unknown {
  try {
    return JSON.parse(text)
  } catch {
    return undefined
  }
}

function thingsOf(value: unknown): readonly Fields[] {
  const things: Fields[] = []
  const waiting: unknown[] = [value]
  for (let i = 0; i < waiting.length && i < mostLinked; i += 1) {
    const one = waiting[i]
    if (Array.isArray(one)) waiting.push(...(one as unknown[]).slice(0, mostLinked))
    else if (typeof one === 'object' && one !== null) {
      things.push(one as Fields)
      waiting.push((one as Fields)['@graph'], (one as Fields)['mainEntity'])
    }
  }
  return things
}

function wordsIn(value: unknown): readonly string[] {
  const all: readonly unknown[] = Array.isArray(value) ? value : [value]
  return all.filter((one) => typeof one === 'string')
}

function namesIn(value: unknown): readonly string[] {
  const all: readonly unknown[] = Array.isArray(value) ? value.slice(0, 50) : [value]
  return all.flatMap((one) =>
    typeof one === 'object' && one !== null ? wordsIn((one as Fields)['name']) : wordsIn(one),
  )
}

/** HTML Standard §4.6.7.2: `rel=author` names the author of the nearest article, or else of the page. */
function authorLinks(tree: Root): readonly string[] {
  const isAuthor = (node: Element): boolean =>
    (node.tagName === 'a' || node.tagName === 'address') &&
    (attribute(node, 'rel') ?? '').toLowerCase().split(/\s+/u).includes('author')
  return outermostElements(tree, isAuthor).slice(0, 3).map(textOf)
}

/** Times that stand in the head of the page's first article, before its text. */
function timesOfHead(tree: Root): readonly string[] {
  const article = findElement(tree, new Set(['article']))
  const head = article && findElement(article, new Set(['header']))
  const times = head ? outermostElements(head, ({ tagName }) => tagName === 'time') : []
  return times.map((time) => attribute(time, 'dateTime') ?? attribute(time, 'datetime') ?? textOf(time))
}

const partial = /^(\d{4})(?:[-/](\d{2})(?:[-/](\d{2}))?)?$/u
const localTime = /^(\d{4}-\d{2}-\d{2})[T ](\d{2}:\d{2}(?::\d{2})?)(?:\.\d+)?\s*(Z|[+-]\d{2}:?\d{2})?$/u

/** A date in ISO 8601, as much of it as is stated; undefined for all other writings, whose order could be misread. */
function maybeStated(words: string): string | undefined {
  const text = words.trim()
  const [, year, month, day] = partial.exec(text) ?? []
  if (year !== undefined) {
    const date = [year, month, day].filter((part) => part !== undefined).join('-')
    return isDay(`${year}-${month ?? '01'}-${day ?? '01'}`) ? date : undefined
  }
  const [, date, time, zone = ''] = localTime.exec(text) ?? []
  if (date === undefined || !isDay(date)) return undefined
  const whole = `${date}T${time!.length === 5 ? `${time!}:00` : time!}`
  const offset = zone === 'Z' ? 'Z' : zone.replace(/^([+-]\d{2}):?(\d{2})$/u, '$1:$2')
  return readMoment(`${whole}${offset || 'Z'}`) === undefined ? undefined : `${whole}${offset}`
}

function isDay(date: string): boolean {
  return readMoment(`${date}T00:00:00Z`) !== undefined && date >= '1000'
}
