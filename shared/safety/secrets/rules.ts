/**
 * What a secret looks like, each form by its public source. A rule's group `secret` is what would be betrayed; the words before
 * it only tell it from other text. Patterns hold no nested repetitions, so that no text makes them slow.
 */

/** What a found text would be if it is a secret, in words for the person. */
export const secretKinds = {
  key: 'a private key',
  address: 'a password in an address',
  hash: 'a hashed password',
  token: 'an access token',
  header: 'credentials of a request',
  command: 'a password in a command',
  setting: 'a password in a setting',
} as const
export type SecretKind = keyof typeof secretKinds

export interface SecretRule {
  readonly kind: SecretKind
  /** Global, with a group named `secret`. */
  readonly pattern: RegExp
}

const rule = (kind: SecretKind, ...pattern: readonly string[]): SecretRule => ({
  kind,
  pattern: new RegExp(pattern.join(''), 'gi'),
})
/** As `rule`, but capitals matter. */
const exact = (kind: SecretKind, ...pattern: readonly string[]): SecretRule => ({
  kind,
  pattern: new RegExp(pattern.join(''), 'g'),
})

const SIGNS = '[./0-9A-Za-z]'
// A hyphen too, or a text of hyphens and heads would be read to its end from each of them.
const START = '(?<![0-9A-Za-z_-])'
const END = '(?![0-9A-Za-z_])'

/** Hashed passphrases: crypt(5) of libxcrypt 4.4; `apr1` is that of openssl-passwd(1). */
const hashes = [
  `\\$g?y\\$${SIGNS}+\\$${SIGNS}{0,86}\\$${SIGNS}{43}`,
  `\\$7\\$${SIGNS}{11,97}\\$${SIGNS}{43}`,
  `\\$2[abxy]\\$[0-9]{2}\\$${SIGNS}{53}`,
  `\\$6\\$(?:rounds=[1-9][0-9]+\\$)?[^$:\\s]{1,16}\\$${SIGNS}{86}`,
  `\\$5\\$(?:rounds=[1-9][0-9]+\\$)?[^$:\\s]{1,16}\\$${SIGNS}{43}`,
  `\\$(?:1|apr1)\\$[^$:\\s]{1,8}\\$${SIGNS}{22}`,
  `\\$sha1\\$[1-9][0-9]+\\$${SIGNS}{1,64}\\$${SIGNS}{8,64}`,
  `\\$3\\$\\$[0-9a-f]{32}`,
]

/**
 * Tokens that their issuers give a prefix of their own: GitHub (changelog of 31 March 2021: four letters, later up to 255
 * characters), GitLab (issue 342327 of gitlab-org/gitlab), AWS (IAM identifiers, prefixes of access keys). The others are from
 * memory of their issuers' documentation, not looked up.
 */
const tokens = [
  'gh[opsur]_[0-9A-Za-z_]{36,251}',
  'github_pat_[0-9A-Za-z_]{36,244}',
  'gl(?:pat|ptt|dt|rt|ft)-[0-9A-Za-z_-]{20,}',
  '(?:AKIA|ASIA)[0-9A-Z]{16}',
  'xox[abeoprs]-[0-9A-Za-z-]{10,}',
  '[rs]k_live_[0-9A-Za-z]{20,}',
  'npm_[0-9A-Za-z]{36}',
  'pypi-AgEIcHlwaS5vcmc[0-9A-Za-z_-]{40,}',
  'AIza[0-9A-Za-z_-]{35}',
  // RFC 7519 §3.1 and RFC 7515 §7.1: base64url of a JSON object, twice, and the signature.
  'eyJ[0-9A-Za-z_-]{8,}\\.[0-9A-Za-z_-]{8,}\\.[0-9A-Za-z_-]{8,}',
]

/** A word that a setting's name ends with where its value is secret. */
const NAME =
  '(?:pass(?:word|wd|phrase)?|passwort|secret(?:[_-]?key)?|(?:auth|access)[_-]?token|api[_-]?key|access[_-]?key|psk)'
const QUOTE = '["\'`]?'

export const secretRules: readonly SecretRule[] = [
  // RFC 7468 §10 and §11, with the labels of OpenSSL and OpenSSH; RFC 9580 §6.2 for OpenPGP. Lines may be indented or quoted.
  exact(
    'key',
    '-----BEGIN (?:[A-Z0-9]+ ){0,3}PRIVATE KEY(?: BLOCK)?-----[\\s>]+(?<secret>[^\\s>-][^\\s]{7,})',
  ),
  // RFC 3986 §3.2.1: what stands behind the first colon of the user information.
  rule(
    'address',
    '[a-z][a-z0-9+.-]{0,20}://[^\\s/?#@:"\'<>]{0,100}:(?<secret>[^\\s/?#@"\'<>]{1,200})@[^\\s/?#@]',
  ),
  ...hashes.map((pattern) => exact('hash', `(?<secret>${pattern})(?!${SIGNS})`)),
  ...tokens.map((pattern) => exact('token', `${START}(?<secret>${pattern})${END}`)),
  // RFC 7617 §2 and RFC 6750 §2.1.
  rule(
    'header',
    `authorization${QUOTE}\\s{0,3}[:=]\\s{0,3}${QUOTE}(?:basic|bearer)\\s+(?<secret>[0-9a-z+/._~=-]{8,})`,
  ),
  // wg(8): keys are 32 bytes in base64.
  rule('key', `(?:private|preshared)key\\s{0,3}=\\s{0,3}(?<secret>[0-9a-z+/]{43}=)`),
  // sshpass(1), curl(1) and openssl-passphrase-options(1).
  rule('command', `${START}sshpass\\s+-p\\s{0,3}${QUOTE}(?<secret>[^\\s"'\`]+)`),
  rule(
    'command',
    `${START}curl\\s[^\\n|;]{0,200}?(?:-u\\s{0,3}|--user[ =])${QUOTE}[^\\s:"'\`]+:(?<secret>[^\\s"'\`]+)`,
  ),
  rule('command', `\\s-(?:pass|passin|passout)\\s+${QUOTE}pass:(?<secret>[^\\s"'\`]+)`),
  // Settings as most programs write them. A value behind a colon must not be a mere word, since prose has colons too.
  rule('setting', `${NAME}${QUOTE}\\s{0,3}=\\s{0,3}${QUOTE}(?<secret>[^\\s"'\`;,)]{4,200})`),
  rule(
    'setting',
    `${NAME}${QUOTE}:\\s{0,3}${QUOTE}(?<secret>(?=[^\\s"'\`]{0,100}[0-9!#%&*+@^_~])[^\\s"'\`;,)]{6,200})`,
  ),
]

/** Whether what stands at a secret's place only stands for one: `⁅name⁆`, `<name>`, `$NAME`, `{{ name }}`, `****`, `████`. */
export function isPlaceholder(words: string): boolean {
  return placeholders.some((form) => form.test(words))
}

const placeholders: readonly RegExp[] = [
  /^[⁅<{[]/,
  // Variables of shells (POSIX.1-2024 §2.6) and of cmd.
  /^\$(?:[A-Za-z_]\w*|[{(].*)$/,
  /^%\w+%$/,
  /^(.)\1*$/u,
  /[█…]/,
]
