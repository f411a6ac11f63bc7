/** The macros of man(7), with the extensions of groff_man(7). */
import { requests } from './requests.ts'
import { tableMacros } from './table.ts'
import type { Call, Machine, Macro } from './machine.ts'
import { addText, type Run } from './style.ts'

/** What `.TH` says: title, section, date, source, manual. */
export interface Head {
  readonly title: string
  readonly section: string
  readonly date: string
}

const words = ({ args }: Call): string[] => args.map(({ value }) => value)

function runsIn(machine: Machine, text: string, font: string): Run[] {
  machine.style.set(font)
  const runs = machine.runsOf(text)
  machine.style.reset()
  return runs
}

/** `.B words`: all words in one font; without words the next line of text. */
const inFont =
  (font: 'B' | 'I' | 'R'): Macro =>
  (machine, call) => {
    if (call.args.length === 0) {
      machine.nextFont = font
      return
    }
    machine.style.set(font)
    machine.text(words(call).join(' '))
    machine.style.reset()
  }

/** `.BR one two three`: words without space between them, in fonts by turns. */
const alternating =
  (first: string, second: string): Macro =>
  (machine, call) => {
    const runs: Run[] = []
    words(call).forEach((word, i) => {
      for (const { text, font } of runsIn(machine, word, i % 2 === 0 ? first : second))
        addText(runs, text, font)
    })
    const isJoined = /\\c$/u.test(call.rest)
    if (runs.length > 0) machine.flow.text(runs, isJoined)
  }

const heading =
  (depth: 2 | 3): Macro =>
  (machine, call) => {
    machine.style.reset()
    machine.nextFont = null
    machine.flow.setFill(true)
    if (call.args.length > 0) machine.flow.heading(depth, machine.runsOf(words(call).join(' ')))
    else machine.flow.capture((runs) => machine.flow.heading(depth, runs))
    machine.style.reset()
  }

const paragraph: Macro = (machine) => {
  machine.style.reset()
  machine.flow.paragraph()
}

/** The next line is the term, what follows its body. */
const term: Macro = (machine) => {
  machine.style.reset()
  machine.flow.paragraph()
  machine.flow.capture((runs) => machine.flow.item(runs))
}

const alsoTerm: Macro = (machine) => {
  machine.style.reset()
  machine.flow.capture((runs) => machine.flow.alsoTerm(runs))
}

const indented: Macro = (machine, call) => {
  machine.style.reset()
  const tag = call.args[0]?.value ?? ''
  const runs = machine.runsOf(tag)
  machine.style.reset()
  if (runs.some(({ text }) => text.trim() !== '')) machine.flow.item(runs)
  else machine.flow.indented()
}

const deeper: Macro = (machine) => machine.flow.indent()
const back: Macro = (machine, { args }) => {
  const to = Number.parseInt(args[0]?.value ?? '', 10)
  machine.flow.dedent(Number.isNaN(to) ? undefined : to)
}

/** Addresses between `.UR` and `.UE` (`.MT` and `.ME` for mail) stand in angle brackets behind their words. */
const addresses = new WeakMap<Machine, string>()
const openAddress: Macro = (machine, call) => void addresses.set(machine, call.args[0]?.value ?? '')
const closeAddress: Macro = (machine, call) => {
  const address = addresses.get(machine) ?? ''
  addresses.delete(machine)
  const shown = address === '' ? '' : `\\[la]${address}\\[ra]`
  machine.text(shown + words(call).join(' '))
}

const synopsis: Macro = (machine, call) => {
  machine.flow.lineBreak()
  machine.flow.text(runsIn(machine, call.args[0]?.value ?? '', 'B'))
}

/** `.OP -o value`: an option that may be left out. */
const option: Macro = (machine, call) => {
  const [flag, value] = words(call)
  const runs: Run[] = [{ text: '[', font: 'R' }]
  for (const { text, font } of runsIn(machine, flag ?? '', 'B')) addText(runs, text, font)
  if (value !== undefined) {
    addText(runs, ' ', 'R')
    for (const { text, font } of runsIn(machine, value, 'I')) addText(runs, text, font)
  }
  addText(runs, ']', 'R')
  machine.flow.text(runs)
}

/** `.MR name section punctuation` (groff 1.23): another page. */
const reference: Macro = (machine, call) => {
  const [name = '', section, rest = ''] = words(call)
  const runs = runsIn(machine, name, 'I')
  addText(runs, section === undefined ? rest : `(${section})${rest}`, 'R')
  machine.flow.text(runs)
}

const example =
  (isFilled: boolean): Macro =>
  (machine) => {
    machine.flow.setFill(isFilled)
    machine.style.reset()
  }

const tryHead =
  (setHead: (head: Head) => void): Macro =>
  (_, call) => {
    const [title = '', section = '', date = ''] = words(call)
    setHead({ title, section, date })
  }

/** The macros, with a function that is told the page's head. */
export function manMacros(setHead: (head: Head) => void): Map<string, Macro> {
  return new Map<string, Macro>([
    ['TH', tryHead(setHead)],
    ['SH', heading(2)],
    ['SS', heading(3)],
    ...['PP', 'P', 'LP', 'HP'].map((name): [string, Macro] => [name, paragraph]),
    ['TP', term],
    ['TQ', alsoTerm],
    ['IP', indented],
    ['RS', deeper],
    ['RE', back],
    ['B', inFont('B')],
    ['SB', inFont('B')],
    ['I', inFont('I')],
    ['R', inFont('R')],
    ['SM', inFont('R')],
    ['BR', alternating('B', 'R')],
    ['BI', alternating('B', 'I')],
    ['IB', alternating('I', 'B')],
    ['IR', alternating('I', 'R')],
    ['RB', alternating('R', 'B')],
    ['RI', alternating('R', 'I')],
    ['UR', openAddress],
    ['MT', openAddress],
    ['UE', closeAddress],
    ['ME', closeAddress],
    ['SY', synopsis],
    ['YS', (machine) => machine.flow.space()],
    ['OP', option],
    ['MR', reference],
    ['EX', example(false)],
    ['EE', example(true)],
    ['DT', requests.get('ta')!],
    ['PD', requests.get('ta')!],
    ['AT', requests.get('ta')!],
    ['UC', requests.get('ta')!],
    ...tableMacros,
  ])
}
