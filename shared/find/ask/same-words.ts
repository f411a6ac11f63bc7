/**
 * Abbreviations of the trade and second names of its things, most of them names of commands, files and options of any Unix;
 * each line is one group. They count less than the word itself (matching.ts), so that a wrong pair costs little.
 */
import { fold, maybeStem } from '../index/fold.ts'

const groups = `
  abbr abbreviation
  acl permission
  addr address
  admin administrator
  arg argument
  auth authentication authorisation authorization
  backup back-up
  bin binary
  box computer host machine server
  ca authority
  cert certificate crt
  chmod mode permission
  chown owner
  cmd command
  config configuration conf settings
  cp copy
  crash panic
  csr request
  daemon service
  db database
  del delete erase remove rm
  dev device
  dir directory folder
  disk drive hdd ssd
  dns resolver
  doc docs documentation manual
  dst destination target
  env environment
  exec execute run
  exit quit
  flag option switch
  fs filesystem
  gw gateway
  halt poweroff shutdown
  hw hardware
  iface interface nic
  img image
  info information
  init boot start-up
  kill terminate
  lib library
  ls list
  mem memory ram
  mkdir directory
  mv move rename
  mount mnt
  net network
  num number
  obj object
  param parameter
  passphrase password pw
  perm permission
  pid process
  pkg package
  proc process
  pub public
  ref reference
  release ver version
  repo repository
  reboot restart
  req request
  rsync copy
  sd card
  sftp scp
  spec specification
  src source
  sw software
  sync synchronise synchronize
  sys system
  tar archive tarball
  temp temporary tmp
  tz timezone
  umount unmount
  url address link
  usb stick
  user account login
  util utility
  var variable
  vm virtual
  vol volume
`

const groupsOf = new Map<string, Set<string>>()
for (const line of groups.trim().split('\n')) {
  const words = line.trim().split(' ')
  for (const word of words) {
    const key = keyOf(word)
    const known = groupsOf.get(key) ?? new Set()
    for (const other of words) if (keyOf(other) !== key) known.add(other)
    groupsOf.set(key, known)
  }
}

/** Other words for a word; none for most. */
export function sameWords(word: string): readonly string[] {
  return [...(groupsOf.get(keyOf(fold(word))) ?? [])]
}

function keyOf(form: string): string {
  return maybeStem(form) ?? form
}
