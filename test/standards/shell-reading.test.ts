/**
 * Reading of commands against bash itself, on commands that Debian's documentation packages print: words against
 * `printf %q` and against what bash would run, verdicts against `bash -n`.
 */
import { spawnSync } from 'node:child_process'
import { beforeAll, describe, expect, it } from 'vitest'
import { effectOf, effectOfText } from '../../shared/shell/effects.ts'
import { findProblems, readScript, simpleCommandsOf } from '../../shared/shell/reading/read.ts'
import type { ShellNode, SimpleNode } from '../../shared/shell/reading/tree.ts'
import { normalForm } from '../../shared/shell/same.ts'
import { seenCommands } from '../../shared/shell/seen.ts'
import { brokenTexts, textsOfDocs } from '../support/doc-commands.ts'
import { maybeSealed } from '../support/sealed-bash.ts'

const docs = process.env.DOCS_DIR ?? ''
const texts = docs === '' ? [] : textsOfDocs(docs)
const canSeal = maybeSealed('[ ! -e /etc ] && ! (: > /a) 2>&- && printf sealed') === 'sealed'

const accepts = (text: string): boolean => spawnSync('bash', ['-n'], { input: text }).status === 0

/** A word as bash reads it back, whatever is in it. */
const quoted = (value: string): string => `'${value.replaceAll("'", `'\\''`)}'`

/** Prints the words of each text that comes in, a NUL behind each text. Nothing in them is a file or a home there. */
const printWords = `set -f; while IFS= read -r -d '' text; do ( eval -- "printf '%q\\n' $text" ) <&- 2>&-; printf '\\0'; done`

function printed(inputs: readonly string[]): string[][] {
  const out = maybeSealed(printWords, inputs.map((one) => `${one}\0`).join(''))
  const answers = (out ?? '').split('\0').slice(0, -1)
  expect(answers).toHaveLength(inputs.length)
  return answers.map((one) => one.split('\n').slice(0, -1))
}

interface Sample {
  /** The words of a simple command as they are written, without its redirections. */
  readonly written: string
  readonly values: readonly (string | null)[]
}

function sampleOf(text: string, { from, to, assignments, words, redirections }: SimpleNode): Sample {
  let written = ''
  let at = from
  for (const one of [...redirections].sort((a, b) => a.from - b.from)) {
    written += `${text.slice(at, one.from)} `
    at = one.to
  }
  const assigned = assignments.map(({ name, value }) => (value === null ? null : `${name}=${value}`))
  return { written: written + text.slice(at, to), values: [...assigned, ...words.map(({ value }) => value)] }
}

/** Whether words are those that are expected; null stands for any number of them. */
function fits(words: readonly string[], expected: readonly (string | null)[]): boolean {
  const [first, ...rest] = expected
  if (first === undefined) return words.length === 0
  if (first !== null) return words[0] === first && fits(words.slice(1), rest)
  return words.some((_, n) => fits(words.slice(n), rest)) || fits([], rest)
}

describe.skipIf(texts.length < 1000)('commands of Debian’s documentation', () => {
  let accepted: string[] = []
  let refused: string[] = []
  let brokenAccepted: string[] = []
  let brokenRefused: string[] = []

  beforeAll(() => {
    const verdicts = texts.map(accepts)
    accepted = texts.filter((_, n) => verdicts[n])
    refused = texts.filter((_, n) => !verdicts[n])
    const broken = brokenTexts(accepted, 6).slice(0, 1500)
    const brokenVerdicts = broken.map(accepts)
    brokenAccepted = broken.filter((_, n) => brokenVerdicts[n])
    brokenRefused = broken.filter((_, n) => !brokenVerdicts[n])
  }, 300_000)

  it.skipIf(!canSeal)(
    'words without expansions are those that printf %q gives in a sealed bash',
    () => {
      const samples = accepted.flatMap((text) =>
        simpleCommandsOf(readScript(text).root)
          .filter(({ assignments }) => !assignments.some((one) => /^\w+\+?=\(/u.test(one.text)))
          .map((node) => sampleOf(text, node))
          .filter(({ values }) => values.some((value) => value !== null)),
      )
      const given = printed(samples.map(({ written }) => written))
      const ours = printed(samples.map(({ values }) => values.map((one) => quoted(one ?? '')).join(' ')))
      const differing = samples.filter(({ values }, n) => {
        const expected = ours[n]!.map((one, place) => (values[place] === null ? null : one))
        return !fits(given[n]!, expected)
      })
      const words = samples.reduce((sum, { values }) => sum + values.filter((one) => one !== null).length, 0)
      console.log(
        `${samples.length} simple commands of ${accepted.length} texts, ${words} words, ${differing.length} differ`,
      )
      expect(differing).toEqual([])
      expect(samples.length).toBeGreaterThan(300)
      expect(words).toBeGreaterThan(samples.length)
    },
    120_000,
  )

  it.skipIf(!canSeal)(
    'simple commands of lists and pipelines are those that a bash without any program looks for',
    () => {
      // Where no program exists, bash hands the words of each command to this function.
      // The mark stands for a line end, so that each command is written at once.
      const script = `exec 3>&1; set -f
enable -n $(compgen -b | while read -r name; do case $name in enable|eval|printf|read|set|exit) ;; *) printf '%s ' "$name";; esac; done)
command_not_found_handle() { printf -v one '%q\\n' "$@"; printf '%s\\1' "\${one//$'\\n'/$'\\2'}" >&3; }
while IFS= read -r -d '' text; do ( eval -- "$text" ) <&- 2>&-; printf '\\0'; done`
      const plain = accepted.filter((text) => isPlain(readScript(text).root))
      const out = maybeSealed(script, plain.map((text) => `${text}\0`).join('')) ?? ''
      const given = out.split('\0').slice(0, -1)
      expect(given).toHaveLength(plain.length)
      const commands = plain.map((text) => simpleCommandsOf(readScript(text).root))
      const ours = printed(
        commands.flat().map(({ words }) => words.map(({ value }) => quoted(value!)).join(' ')),
      ).map((words) => words.join('\u0002'))
      let at = 0
      const differing = plain.filter((_, n) => {
        const expected = ours.slice(at, (at += commands[n]!.length))
        const found = given[n]!.split('\u0001')
          .slice(0, -1)
          .map((one) => one.slice(0, -1))
        return found.sort().join('\u0001') !== expected.sort().join('\u0001')
      })
      console.log(`${plain.length} whole texts with ${ours.length} commands, ${differing.length} differ`)
      expect(differing).toEqual([])
      expect(plain.length).toBeGreaterThan(300)
    },
    120_000,
  )

  it('have a normal form that bash accepts, that is its own, and that does what they do', () => {
    const effects = (text: string): string => effectOfText(text).effects.join(' ')
    const wrong = accepted.filter((text) => {
      const form = normalForm(text)
      return normalForm(form) !== form || effects(form) !== effects(text)
    })
    expect(wrong).toEqual([])
    const forms = [...new Set(accepted.map(normalForm))]
    expect(forms.filter((form) => !accepts(form))).toEqual([])
    const commands = accepted.flatMap(seenCommands)
    const known = commands.filter((seen) => effectOf(seen).isKnown).length
    console.log(
      `${forms.length} normal forms of ${accepted.length} texts; effects known of ${known} of ${commands.length} commands`,
    )
    expect(known / commands.length).toBeGreaterThan(0.7)
  }, 300_000)

  it('verdicts agree with bash -n, also on what it refuses', () => {
    const report = (name: string, yes: readonly string[], no: readonly string[]): number => {
      const right = yes.filter((text) => findProblems(text).length === 0).length
      const found = no.filter((text) => findProblems(text).length > 0).length
      const all = yes.length + no.length
      const share = (count: number): string => `${((100 * count) / all).toFixed(1)} %`
      console.log(
        `${name}: ${right} of ${yes.length} accepted, ${found} of ${no.length} refused; ${share(right + found)} agree, always yes ${share(yes.length)}`,
      )
      return (right + found) / all
    }
    expect(accepted.length).toBeGreaterThanOrEqual(200)
    expect(refused.length).toBeGreaterThanOrEqual(100)
    expect(brokenRefused.length).toBeGreaterThan(100)
    expect(report('As printed', accepted, refused)).toBeGreaterThan(0.995)
    expect(report('Broken on purpose', brokenAccepted, brokenRefused)).toBeGreaterThan(0.99)
  }, 120_000)
})

/** Only commands that every bash would look for: no redirections, expansions, assignments, groups, built-in names. */
function isPlain(node: ShellNode): boolean {
  if (node.type === 'group') return false
  if (node.type === 'pipeline') return !node.isTimed && node.parts.every(isPlain)
  if (node.type === 'list') return !node.joints.includes('||') && node.parts.every(isPlain)
  const { assignments, redirections, words } = node
  const name = words[0]?.value ?? '/'
  return (
    assignments.length === 0 &&
    redirections.length === 0 &&
    words.every(({ value }) => value !== null) &&
    !/\/|^(?:eval|printf|read|set|exit|enable)$/u.test(name)
  )
}
