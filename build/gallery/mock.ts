/** What the gallery shows: one evening at a small volunteer observatory. Invented; addresses from RFC 5737. */
import type { EntryKind, LinkType, SourceKind } from '../../shared/lab/model.ts'

export interface MockSource {
  readonly kind: SourceKind
  readonly title: string
  readonly address: string
  readonly facts: string
}

export const sources: readonly MockSource[] = [
  {
    kind: 'page',
    title: 'Weather logger: parts and wiring',
    address: 'wiki.dome.example.org/logger',
    facts: 'Captured 2 Nov, 3 carried',
  },
  {
    kind: 'markdown',
    title: 'Moving a root file system to a disk',
    address: 'move-root.md',
    facts: 'Captured 14 Nov, 5 carried',
  },
  {
    kind: 'page',
    title: 'Why memory cards wear out',
    address: 'notes.example.org/flash-wear',
    facts: 'Captured 14 Nov',
  },
  {
    kind: 'text',
    title: 'rsync(1), as installed on mistral',
    address: 'rsync.1.txt',
    facts: 'Captured 14 Nov, 2 carried',
  },
  {
    kind: 'link',
    title: 'Serial protocol of the rain gauge',
    address: 'docs.example.org/gauge/serial',
    facts: 'Address only',
  },
  {
    kind: 'page',
    title: 'Time service for the dome',
    address: 'wiki.dome.example.org/time',
    facts: 'Captured 9 Nov',
  },
  {
    kind: 'markdown',
    title: 'What is in the rack, and who holds the key',
    address: 'rack.md',
    facts: 'Captured 30 Oct, 1 carried',
  },
  {
    kind: 'text',
    title: 'Boot messages of mistral, before',
    address: 'boot-before.txt',
    facts: 'Captured 14 Nov',
  },
]

export interface MockEntry {
  readonly time: string
  readonly kind: EntryKind
  readonly text: string
  readonly isCode?: boolean
  readonly older?: boolean
  readonly link?: { readonly type: LinkType; readonly words: string }
  readonly cameOfIt?: string
}

export const entries: readonly MockEntry[] = [
  {
    time: '18:52',
    kind: 'observation',
    older: true,
    text: 'The logger on mistral missed eleven readings since noon. The card’s light stays on.',
  },
  { time: '18:55', kind: 'action', older: true, isCode: true, text: 'dmesg --level=err | tail -n 3' },
  {
    time: '18:55',
    kind: 'output',
    older: true,
    isCode: true,
    text: 'mmc0: card never left busy state\nI/O error, dev mmcblk0, sector 1048640\nEXT4-fs (mmcblk0p2): Remounting read-only',
  },
  {
    time: '19:04',
    kind: 'decision',
    text: 'Move the root file system to the spare disk tonight; keep the card only for booting.',
    link: { type: 'derives', words: 'Why memory cards wear out' },
  },
  { time: '19:10', kind: 'action', isCode: true, text: 'systemctl stop weather-logger' },
  {
    time: '19:18',
    kind: 'action',
    isCode: true,
    text: 'rsync -aHAX --one-file-system / /mnt/new/',
    cameOfIt: 'Step 4, do',
    link: { type: 'quotes', words: 'Moving a root file system' },
  },
  {
    time: '19:41',
    kind: 'problem',
    text: 'After the restart it still runs from the card: findmnt / says /dev/mmcblk0p2.',
    cameOfIt: 'Step 5, if it fails',
  },
  {
    time: '19:48',
    kind: 'fix',
    text: 'The old identifier stood in cmdline.txt as well as in fstab. Put the disk’s PARTUUID in both, restarted.',
    cameOfIt: 'Step 5, if it fails',
  },
  {
    time: '19:53',
    kind: 'output',
    isCode: true,
    text: 'TARGET SOURCE    FSTYPE OPTIONS\n/      /dev/sda2 ext4   rw,noatime',
    cameOfIt: 'Step 5, expect',
  },
  {
    time: '20:02',
    kind: 'observation',
    text: 'Readings arrive again, one each 10 s; 192.0.2.17 answers in 0.4 ms.',
  },
]

export const reading = [
  'Copy from the running system only once the services that write are stopped. A copy made under a writing service can hold a file that was never whole.',
  'Name the disk by its PARTUUID, not by its letter: letters are given in the order in which disks answer.',
  'Two files name the root: the table of file systems, and the line that the boot loader hands to the kernel. Change both.',
]
