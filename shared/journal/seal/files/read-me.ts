/** README.txt of an exported journal: for somebody who knows nothing of this program. */
import type { Moment } from '../../../lab/moment.ts'
import type { Held } from '../check.ts'
import { NO_SEAL } from '../seal.ts'
import { sealPath } from './layout.ts'

export function readMe({ title, made }: { title: string; made: Moment }, held: Held): string {
  const head = held.head ?? { number: 0, hash: NO_SEAL }
  return `${[
    `This is the sealed journal of "${oneLine(title)}", written out on ${made}.`,
    '',
    ...whatLiesHere,
    '',
    ...howToCheck(head),
    '',
    'WHAT THIS PROVES',
    '',
    `That nothing in it was changed, removed, moved or added between since it was sealed, up to a head that you know from
elsewhere: one that was noted, printed, mailed or exported earlier. Of this folder the head is`,
    '',
    `    ${head.number} ${head.hash}`,
    '',
    'Note it where the writer of the journal cannot change it. Every later export must hold it; check.sh takes it:',
    '',
    `    sh check.sh ${head.number} ${head.hash}`,
    '',
    ...whatItDoesNot,
    '',
    ...particulars(held),
  ].join('\n')}\n`
}

const oneLine = (text: string): string => text.replace(/\s+/g, ' ').trim()

/** Lines of at most 120 characters. */
function wrapped(sentence: string): string[] {
  return sentence.match(/.{1,120}(?= |$)/g)?.map((line) => line.trim()) ?? []
}

const whatLiesHere = [
  'journal.md   the journal in its order, to be read. It is made from the files below and says nothing else.',
  'seals/       one file for each entry, amendment, withdrawal, mark (a tick, an outcome, a time or place set later)',
  '             and strike (a text taken away for good), numbered in the order in which they were sealed.',
  'texts/       every word that a person or a machine wrote, one file each.',
  'blobs/       pictures and binary files, if there are any, each under its own SHA-256.',
  'HEAD.txt     the number and the SHA-256 of the last seal.',
  'SHA256SUMS   the SHA-256 of every other file.',
  'check.sh     does all that follows by itself.',
]

function howToCheck({ number }: { number: number }): string[] {
  const last = sealPath(Math.max(number, 1))
  return [
    'HOW TO CHECK IT',
    '',
    'First, that the folder is as it was written, and then that it holds together:',
    '',
    '    sha256sum -c SHA256SUMS',
    '    sh check.sh',
    '',
    'In this order: the first also shows that check.sh was not damaged. You may read it before you run it; it changes',
    'nothing. If you would rather not, the same by hand, with sha256sum and a text editor:',
    '',
    '1. Open a seal, for instance the second. After "before" stands the SHA-256 of the seal before it:',
    '',
    `       sha256sum ${sealPath(1)}`,
    '',
    '   must print it. The first seal has sixty-four zeros there. So it goes from seal to seal, to the last:',
    '',
    `       sha256sum ${last}`,
    '',
    '   must print what stands in HEAD.txt. Who changes one seal must change all that follow, and the head.',
    '2. In a seal, wherever words stood, stands "sha256" with a digest, such as {"sha256":"1f3a..."}. The file in texts',
    '   with that name holds the words, and',
    '',
    '       sha256sum texts/1f3a....txt',
    '',
    '   must print the name again. The first line of the file is 32 random bytes as hex, the salt; the words begin in the',
    '   second line, and a line feed stands behind them. Without the salt, short words could be found out by trying.',
    '3. All else stands openly in the seal: the moment, the kind, the exit code, which entry it belongs to ("of" names the',
    '   record; "sealed" is when the seal was made; "late" says whether that was long after the record). An amendment has',
    '   the whole text after it.',
    '4. A digest without a file in texts is a text out of which something was struck for good, salt included. The seal of',
    '   the strike names it under "gone", and under "now" the digest of the text with blocks in the place of what was',
    '   struck; that one has a file. The seals before it were not changed by that, and still hold.',
    '',
    'The bodies of the seals are canonical JSON (RFC 8785), SHA-256 is that of FIPS 180-4, texts are UTF-8.',
  ]
}

const whatItDoesNot = [
  'WHAT IT DOES NOT PROVE',
  '',
  'Who wrote it. That the clock of the machine was right, or that an entry was written when it says. That nothing was left',
  'out before it was sealed, or that what was written is true. That a strike only put blocks where a secret stood: it shows',
  'where and when something was struck, and that nothing was changed there before or since. And whoever has the journal can',
  'make the whole chain anew, or leave out its end: without a head that was noted elsewhere, nobody could tell. SHA256SUMS',
  'alone finds accidents, not forgers, who would write it anew. README.txt and check.sh are not sealed: compare check.sh',
  'with that of another export, or check by hand.',
]

function particulars({ count, late, struck, sentence }: Held): string[] {
  return [
    'OF THIS JOURNAL',
    '',
    ...wrapped(`It has ${count} seals. ${sentence}`),
    ...(late > 0
      ? [
          `Seals with "late":true (${late} of them) were made when sealing was introduced, long after their records. They show`,
          'that nothing was changed from then on; of the time before they show nothing.',
        ]
      : []),
    ...(struck.length > 0
      ? [
          'Texts out of which something was struck:',
          ...struck.map(
            ({ number, field, strikes }) =>
              `    seal ${number}, ${field}: by ${strikes.map((seal) => `seal ${seal}`).join(', ')}`,
          ),
        ]
      : ['Nothing was struck out of it.']),
  ]
}
