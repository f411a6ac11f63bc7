/** The language of a file's fence, by its name, its ending or its first line. */

const byEnding: Readonly<Record<string, string>> = {
  awk: 'awk',
  bash: 'bash',
  c: 'c',
  cfg: 'ini',
  cpp: 'cpp',
  css: 'css',
  csv: 'csv',
  desktop: 'ini',
  diff: 'diff',
  go: 'go',
  h: 'c',
  html: 'html',
  ini: 'ini',
  java: 'java',
  js: 'javascript',
  json: 'json',
  lua: 'lua',
  md: 'markdown',
  mjs: 'javascript',
  mount: 'ini',
  netdev: 'ini',
  network: 'ini',
  link: 'ini',
  patch: 'diff',
  path: 'ini',
  php: 'php',
  pl: 'perl',
  py: 'python',
  rb: 'ruby',
  rs: 'rust',
  rules: 'udev',
  service: 'ini',
  sh: 'sh',
  slice: 'ini',
  socket: 'ini',
  sources: 'debsources',
  sql: 'sql',
  target: 'ini',
  tcl: 'tcl',
  tex: 'latex',
  timer: 'ini',
  toml: 'toml',
  ts: 'typescript',
  vim: 'vim',
  xml: 'xml',
  yaml: 'yaml',
  yml: 'yaml',
  zone: 'dns',
  zsh: 'zsh',
}

/** Files whose whole name tells more than its ending. */
const byName: Readonly<Record<string, string>> = {
  '.bash_profile': 'bash',
  '.bashrc': 'bash',
  '.gitconfig': 'ini',
  '.profile': 'sh',
  '.vimrc': 'vim',
  '.zshrc': 'zsh',
  Dockerfile: 'dockerfile',
  GNUmakefile: 'makefile',
  Makefile: 'makefile',
  'bash.bashrc': 'bash',
  makefile: 'makefile',
  'nftables.conf': 'nftables',
  'nginx.conf': 'nginx',
  profile: 'sh',
}

/** Files and folders under /etc whose names say nothing by themselves; the first that fits counts. */
const byPlace: readonly (readonly [RegExp, string])[] = [
  [/^\/etc\/nginx\/.*(?:\.conf|sites-[a-z]+\/[^/]+)$/, 'nginx'],
  [/^\/etc\/apache2\/.*\.conf$/, 'apache'],
  [/^\/etc\/ssh\/(?:ssh|sshd)_config(?:\.d\/[^/]+\.conf)?$/, 'sshconfig'],
  [/\/\.ssh\/config$/, 'sshconfig'],
  [/^\/etc\/(?:fstab|crypttab|mtab)$/, 'fstab'],
  [/^\/etc\/(?:crontab|cron\.d\/[^/]+)$/, 'crontab'],
  [/^\/etc\/cron\.(?:hourly|daily|weekly|monthly)\/[^/]+$/, 'sh'],
  [/^\/etc\/hosts$/, 'hosts'],
  [/^\/etc\/apt\/sources\.list(?:\.d\/[^/]+\.list)?$/, 'debsources'],
  [/^\/etc\/sudoers(?:\.d\/[^/]+)?$/, 'sudoers'],
  [/^\/etc\/(?:systemd\/.*\.conf|NetworkManager\/.*\.(?:conf|nmconnection)|samba\/smb\.conf)$/, 'ini'],
  [/^\/etc\/wireguard\/[^/]+\.conf$/, 'ini'],
  [/^\/etc\/default\/[^/]+$/, 'sh'],
  [/^\/etc\/bind\/(?:db\.|zones\/)[^/]+$/, 'dns'],
]

const byProgram: Readonly<Record<string, string>> = {
  awk: 'awk',
  bash: 'bash',
  dash: 'sh',
  gawk: 'awk',
  ksh: 'sh',
  lua: 'lua',
  node: 'javascript',
  nft: 'nftables',
  perl: 'perl',
  php: 'php',
  python: 'python',
  ruby: 'ruby',
  sh: 'sh',
  tclsh: 'tcl',
  zsh: 'zsh',
}

/** `#!` with a program, or with env(1) and a program. */
const shebang = /^#![ \t]*(?:\S*\/)?(?:env[ \t]+(?:-S[ \t]*)?(?:\S*\/)?)?([^\s/]+)/

/** The word for a file's fence; empty where nothing is known of it. */
export function languageOfFile(path: string, content: string): string {
  const name = path.slice(path.lastIndexOf('/') + 1)
  const ending = /.\.([A-Za-z0-9]+)$/.exec(name)?.[1]?.toLowerCase()
  const placed = byPlace.find(([places]) => places.test(path))?.[1]
  const program = shebang.exec(content.slice(0, 200))?.[1]?.replace(/[\d.]+$/, '')
  return own(byName, name) ?? placed ?? (own(byProgram, program) || own(byEnding, ending)) ?? ''
}

function own(table: Readonly<Record<string, string>>, key: string | undefined): string | undefined {
  return key !== undefined && Object.hasOwn(table, key) ? table[key] : undefined
}
