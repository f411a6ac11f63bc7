/** Which types a value that someone selected may have, the likeliest first. */
import { checkValue } from './check.ts'
import { valueTypes, type ValueType } from './types.ts'

/** The text before and behind the value, as much as is at hand. */
export interface Around {
  readonly before: string
  readonly after: string
}

const files =
  /\.(?:conf|cfg|ini|ya?ml|json|toml|txt|log|sh|py|service|socket|timer|mount|list|d|gz|xz|zst|tar|img|iso|pem|key|crt|csr|db|deb|bak|md|pub)$/i

/** How likely a text of a type's form is meant as that type, 0 to 1, by its form alone. */
const likelihood: Readonly<Record<ValueType, (text: string) => number>> = {
  'MAC address': (text) => (/[:.-]/.test(text) ? 0.96 : 0.5),
  'IPv4 address': () => 0.95,
  'IPv6 address': () => 0.95,
  network: () => 0.95,
  URL: () => 0.95,
  date: (text) => (/^\d{4}-/.test(text) ? 0.95 : 0),
  'e-mail address': (text) => (/@.+\./.test(text) ? 0.9 : 0.3),
  path: (text) => (/^~?\/./.test(text) ? 0.9 : text.includes('/') ? 0.6 : files.test(text) ? 0.85 : 0),
  'host name': (text) =>
    /\.[a-z]{2,}$/i.test(text)
      ? 0.8
      : /[\d-]/.test(text) && /^[a-z]/i.test(text)
        ? 0.45
        : /^[a-z]/i.test(text)
          ? 0.35
          : 0.1,
  version: (text) => (/^\d+(?::\d+)?[.~-]\d/.test(text) ? 0.7 : 0.15),
  size: (text) => (/[a-z]/i.test(text) ? 0.8 : 0.2),
  duration: (text) => (/\d ?M$|^[PT]$/.test(text) ? 0.4 : /[a-z]/i.test(text) ? 0.8 : 0.25),
  port: (text) => (checkValue('version', text).ok && Number(text) < 10 ? 0.2 : 0.6),
  user: (text) => (/^[a-z_]/.test(text) && !text.includes('.') ? 0.33 : 0.08),
  package: (text) => (/^[a-z]/.test(text) && !files.test(text) ? (text.includes('+') ? 0.5 : 0.32) : 0.06),
  'free text': () => 0.05,
  secret: () => 0.01,
}

/** What stands beside a value that says its type, the surest first. */
const clues: readonly (readonly [type: ValueType, before: RegExp | null, after: RegExp | null])[] = [
  [
    'secret',
    /(?:pass(?:word|phrase|wd)?|secret|token|api[-_ ]?key|psk|credentials?)['"]?[ \t]*(?:is|[:=])?[ \t]*['"]?$/i,
    null,
  ],
  [
    'package',
    /\b(?:apt|apt-get|aptitude|dpkg|dnf|yum|apt-cache)(?: -\S+)* (?:-[a-zA-Z]+|install|reinstall|remove|purge|show|policy|info)(?: [^\n;&|]*)? $/,
    null,
  ],
  ['user', null, /^@[\p{L}\d]/u],
  [
    'user',
    /\b(?:su|sudo -[uU]|chown(?: -R)?|adduser|useradd|usermod|passwd|id|--user)[ =](?:-\S* )*$|\buser[ :=]+$/i,
    null,
  ],
  ['port', /(?:\bports?[ :=]+|(?:^|\s)-[pP] ?|(?:^|\s)--\w*port[ =]|[\p{L}\d\]]:)$/iu, null],
  ['port', null, /^\/(?:tcp|udp)\b/],
  [
    'host name',
    /\b(?:ssh|ping6?|mtr|traceroute|tracepath|nslookup|dig|host|hostnamectl (?:set-)?hostname|getent hosts)(?: -\S+)* $|@$|:\/\/$/,
    null,
  ],
  ['version', /(?:\bversion[ :=]+|[a-z\d+.-]=)$/i, null],
  ['size', /\b(?:truncate|fallocate|lvcreate|lvextend)[^\n;&|]* (?:-s|-l|-L|--size)[ =]?\+?$/, null],
  ['duration', /(?:\bsleep |\btimeout(?: -\S+)* |Sec=|\b(?:wait|waits|after|for) )$/, null],
]

/**
 * The types that a text may have, likeliest first. All of them let the text through; “free text” is always among them unless a
 * control character stands in it.
 */
export function guessTypes(text: string, around: Around = { before: '', after: '' }): ValueType[] {
  const before = around.before.slice(-120)
  const after = around.after.slice(0, 40)
  const clued = clues.filter(
    ([, left, right]) => (left?.test(before) ?? true) && (right?.test(after) ?? true),
  )
  const weightOf = (type: ValueType): number => {
    const rank = clued.findIndex((clue) => clue[0] === type)
    return rank < 0 ? likelihood[type](text) : 2 - rank / 100
  }
  return valueTypes
    .filter((type) => checkValue(type, text).ok)
    .map((type) => ({
      type,
      weight: weightOf(type),
    }))
    .filter(({ weight }) => weight > 0)
    .sort((a, b) => b.weight - a.weight)
    .map(({ type }) => type)
}
