/** Texts, queries and secrets for tests of finding, drawn by a fixed seed. */
import { seededNumbers } from './drawing.ts'

const syllables = 'ba co di fu ge ha ki lo mu ne po ra si tu ve wo'.split(' ')
const technical = [
  '/etc/fstab',
  '/etc/ssh/sshd_config',
  'eth0',
  '10.0.2.0/24',
  'foo_bar.service',
  '--dry-run',
  'v2.38.1',
]

export class DrawnWords {
  /** A number from 0 to below 1. */
  readonly next: () => number
  private readonly words: readonly string[]

  constructor(seed: number) {
    this.next = seededNumbers(seed)
    const drawn = Array.from({ length: 800 }, () =>
      Array.from({ length: 2 + this.below(3) }, () => this.one(syllables)).join(''),
    )
    this.words = [...drawn, ...technical]
  }

  below(most: number): number {
    return Math.floor(this.next() * most)
  }

  one<T>(things: readonly T[]): T {
    return things[this.below(things.length)]!
  }

  /** Common words come often, rare ones rarely, as in every language. */
  word(): string {
    return this.words[Math.floor(this.words.length * this.next() ** 3)]!
  }

  text(length: number): string {
    return Array.from({ length }, () => this.word()).join(' ')
  }

  /** One that is written once; no other word is like it. */
  secret(number: number): string {
    return `zyx${number.toString(36)}qj${(number * 7919).toString(36)}`
  }

  /** Words, beginnings, misspelt ones, phrases and exclusions. */
  query(): string {
    const [first, second] = [this.word(), this.word()]
    const swapped = first.length > 5 ? first.slice(0, 2) + first[3]! + first[2]! + first.slice(4) : first
    const forms = [
      `${first} ${second}`,
      `${first} ${second.slice(0, 4)}`,
      `${swapped} ${second} `,
      `"${first} ${second}"`,
    ]
    return this.one([...forms, `${first} not:${second}`, first.slice(0, 3), `${first} `])
  }
}
