/** Telling the options of a command from its operands (POSIX.1-2017, Utility Conventions, 12.2; getopt_long(3)). */
import type { ScriptWord } from '../reading/tree.ts'

/** One option as a command's manual page has it. */
export interface OptionRule {
  /** All of its spellings, with their dashes. The last one is what it is called in a normal form. */
  readonly names: readonly string[]
  /** Whether a value follows: in the same word or the next one; or only in the same word; or none. */
  readonly takes: 'value' | 'attached' | 'nothing'
  /** Whether what the command does to the machine is the same with it. */
  readonly isHarmless: boolean
}

export interface OptionRules {
  readonly byName: ReadonlyMap<string, OptionRule>
  /** Options end at the first operand, since what follows is another command's. */
  readonly endsAtOperand: boolean
  /** The first word may be letters of options without a dash: `tar xf`. */
  readonly isDashless: boolean
}

export interface GivenOption {
  readonly name: string
  readonly rule: OptionRule | null
  /** What was given with it, null where nothing was. The word's value is null where an expansion decides. */
  readonly value: ScriptWord | null
  readonly from: number
}

export interface Arguments {
  readonly options: readonly GivenOption[]
  readonly operands: readonly ScriptWord[]
  /** Whether every option is one of the rules, so that operands surely are operands. */
  readonly isCertain: boolean
  /** Whether all behind the first operand are operands. */
  readonly endsAtOperand: boolean
}

/**
 * Rules from a line such as `-y,--yes~ -t,--target-release= --color=?`: spellings of one option are joined by commas;
 * `=` takes a value, `=?` only in the same word; `~` makes no difference to the machine. `>` alone: options end at the
 * first operand; `!` alone: letters without a dash.
 */
export function toOptionRules(line: string): OptionRules {
  const byName = new Map<string, OptionRule>()
  const marks = line.split(/\s+/u).filter((one) => one !== '')
  for (const mark of marks) {
    const [, joined, sign] = /^(-.*?)(=\??)?~?$/u.exec(mark) ?? []
    if (joined === undefined) continue
    const takes = sign === '=' ? 'value' : sign === '=?' ? 'attached' : 'nothing'
    const rule: OptionRule = { names: joined.split(','), takes, isHarmless: mark.endsWith('~') }
    for (const name of rule.names) byName.set(name, rule)
  }
  return { byName, endsAtOperand: marks.includes('>'), isDashless: marks.includes('!') }
}

export const noRules: OptionRules = { byName: new Map(), endsAtOperand: false, isDashless: false }

export function readArguments(words: readonly ScriptWord[], rules: OptionRules): Arguments {
  const options: GivenOption[] = []
  const operands: ScriptWord[] = []
  let isCertain = true
  for (let n = 0; n < words.length; n += 1) {
    const word = words[n]!
    const text = word.value ?? writtenHead(word)
    if (text === '--') {
      operands.push(...words.slice(n + 1))
      break
    }
    const isBundle = n === 0 && rules.isDashless && /^[A-Za-z]+$/u.test(text)
    if (!isBundle && !/^-./u.test(text)) {
      operands.push(word)
      if (!rules.endsAtOperand) continue
      operands.push(...words.slice(n + 1))
      break
    }
    const found = isBundle ? bundled(word, `-${text}`, rules) : optionsIn(word, text, rules)
    options.push(...found)
    if (found.some(({ rule }) => rule === null)) isCertain = false
    const waiting = isBundle ? found.filter(needsValue) : found.slice(-1).filter(needsValue)
    for (const one of waiting) {
      const next = words[n + 1]
      if (next === undefined) isCertain = false
      else {
        options[options.indexOf(one)] = { ...one, value: next }
        n += 1
      }
    }
  }
  return { options, operands, isCertain, endsAtOperand: rules.endsAtOperand }
}

const needsValue = ({ rule, value }: GivenOption): boolean => rule?.takes === 'value' && value === null

/** The part of an expanded word that stands as written: `--name=$x` gives `--name=`. */
function writtenHead({ text }: ScriptWord): string {
  return /^--?[\w-]+=?/u.exec(text)?.[0] ?? ''
}

function optionsIn(word: ScriptWord, text: string, rules: OptionRules): GivenOption[] {
  const whole = rules.byName.get(text)
  if (whole) return [{ name: lastOf(whole), rule: whole, value: null, from: word.from }]
  const equals = text.indexOf('=')
  if (text.startsWith('--') || (equals > 0 && rules.byName.has(text.slice(0, equals)))) {
    const name = equals === -1 ? text : text.slice(0, equals)
    const rule = rules.byName.get(name) ?? longFor(name, rules)
    const value = equals === -1 ? null : partOf(word, equals + 1)
    return [{ name: rule ? lastOf(rule) : name, rule, value, from: word.from }]
  }
  return clustered(word, text, rules)
}

/** A long option may be cut short as long as it is the only one that begins so (getopt_long(3)). */
function longFor(name: string, rules: OptionRules): OptionRule | null {
  const found = new Set([...rules.byName].filter(([one]) => one.startsWith(name)).map(([, rule]) => rule))
  return name.length > 3 && found.size === 1 ? [...found][0]! : null
}

/** `-xvf name`: letters of options behind one dash, the last of which may have a value. */
function clustered(word: ScriptWord, text: string, rules: OptionRules): GivenOption[] {
  const found: GivenOption[] = []
  for (let n = 1; n < text.length; n += 1) {
    const rule = rules.byName.get(`-${text[n]!}`) ?? null
    if (rule === null) return [{ name: text, rule: null, value: null, from: word.from }]
    const rest = rule.takes !== 'nothing' && n + 1 < text.length
    found.push({ name: lastOf(rule), rule, value: rest ? partOf(word, n + 1) : null, from: word.from })
    if (rest) break
  }
  return found
}

/** Letters without a dash, whose values are the words behind, in order. */
function bundled(word: ScriptWord, text: string, rules: OptionRules): GivenOption[] {
  return [...text.slice(1)].map((letter) => {
    const rule = rules.byName.get(`-${letter}`) ?? null
    return { name: rule ? lastOf(rule) : `-${letter}`, rule, value: null, from: word.from }
  })
}

const lastOf = ({ names }: OptionRule): string => names.at(-1)!

/** What a word holds from a place in its value on. Places within the word are kept where it is written as it is read. */
function partOf(word: ScriptWord, at: number): ScriptWord {
  const isPlain = word.text === word.value
  return {
    ...word,
    from: isPlain ? word.from + at : word.from,
    text: isPlain ? word.text.slice(at) : word.text.slice(Math.min(at, word.text.length)),
    value: word.value === null ? null : word.value.slice(at),
  }
}

/** Whether an option was given, by any of its spellings. */
export function hasOption({ options }: Arguments, names: readonly string[]): boolean {
  return options.some((one) => isNamed(one, names))
}

/** The value that an option was given with last. */
export function maybeValue({ options }: Arguments, names: readonly string[]): ScriptWord | null {
  return options.filter((one) => isNamed(one, names)).at(-1)?.value ?? null
}

/** All values that an option was given with. */
export function valuesOf({ options }: Arguments, names: readonly string[]): ScriptWord[] {
  return options.flatMap((one) => (isNamed(one, names) && one.value !== null ? [one.value] : []))
}

function isNamed({ name, rule }: GivenOption, names: readonly string[]): boolean {
  if (rule) return rule.names.some((one) => names.includes(one))
  return names.includes(name) || isLetterOf(name, names)
}

/** `-rf` of a command whose options are not known: each of its letters may be one. */
function isLetterOf(name: string, names: readonly string[]): boolean {
  return /^-[A-Za-z]{2,4}$/u.test(name) && names.some((one) => one.length === 2 && name.includes(one[1]!))
}
