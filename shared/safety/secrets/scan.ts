/** Looks for what looks like a secret, so that a person sees it before a file leaves. It finds forms, not all secrets. */
import { isPlaceholder, secretRules, type SecretKind } from './rules.ts'

/** Something that looks like a secret, once for each text however often it stands there. */
export interface SecretFound {
  readonly kind: SecretKind
  /** What would be betrayed. */
  readonly secret: string
  /** What stands before it on its line, shortened to its last characters. */
  readonly before: string
}

/** So much of the line before a secret is told, in UTF-16 code units. */
const MOST_BEFORE = 48

/** No more than this is told of; nobody would read on. */
export const MOST_FOUND = 200

/** Searches texts one after another. Equal secrets are told of once, with where they stood first. */
export class SecretScan {
  private readonly known = new Map<string, SecretFound>()

  /** All that was found so far, in the order in which it came. */
  get found(): SecretFound[] {
    return [...this.known.values()]
  }

  read(text: string): void {
    if (text.length < 8) return
    for (const { kind, pattern } of secretRules)
      for (const match of text.matchAll(pattern)) {
        const secret = match.groups!['secret']!
        if (this.known.size >= MOST_FOUND || this.isKnown(secret) || isPlaceholder(secret)) continue
        this.known.set(secret, { kind, secret, before: wordsBefore(text, match, secret) })
      }
  }

  /** Searches every text in a plain value, but for bytes. */
  readAll(value: unknown): void {
    if (typeof value === 'string') this.read(value)
    else if (typeof value === 'object' && value !== null && !ArrayBuffer.isView(value))
      for (const inner of Object.values(value)) this.readAll(inner)
  }

  /** Rules overlap: a token in a header or a setting is told of once. */
  private isKnown(secret: string): boolean {
    if (this.known.has(secret)) return true
    for (const one of this.known.keys()) if (one.includes(secret)) return true
    return false
  }
}

/** What looks like a secret in a text, by kinds. */
export function findSecrets(text: string): SecretFound[] {
  const scan = new SecretScan()
  scan.read(text)
  return scan.found
}

function wordsBefore(text: string, match: RegExpMatchArray, secret: string): string {
  const at = match.index! + match[0].lastIndexOf(secret)
  const line = text.slice(Math.max(text.lastIndexOf('\n', at - 1) + 1, at - 4 * MOST_BEFORE), at).trimStart()
  return line.length <= MOST_BEFORE ? line : `… ${line.slice(-MOST_BEFORE)}`
}
