/** Requests of roff (roff(7), groff(7)), as far as a page's words or their order depend on them. The others do nothing. */
import { splitArgs } from './escape.ts'
import type { Macro } from './machine.ts'
import { toRuns } from './text.ts'
import { Style } from './style.ts'

const nothing: Macro = () => {}

const silent =
  'ad af ab ah bd bp brp box boxa char chop close cflags color cs cu da defcolor dt ev evc fam fchar fcolor fp fspecial ftr ' +
  'gcolor hc hcode hla hlm hpf hpfa hpfcode hw hy hym hys ie kern lc lf lg linetabs ll ls lsm lt mc mk mso na ne nh nm nn nx ' +
  'open opena output pc pev pi pl pm pn pnr po ps psbb pso ptr pvs rchar rd rj rnn rr rs rt schar shc sizes special spreadwarn ' +
  'ss sty substring sy ta tc ti tkf tm tm1 tmc trf trin trnt troff uf ul vpt vs warn wh write writec writem cc c2 ecs ecr em ' +
  'it itc blm als1 in di hs unformat nop1 cf fl ns lj psz cp do1 asciify continue length'

/** `.ds name value`: a quote before the value only keeps its leading spaces. */
const setString =
  (isMore: boolean): Macro =>
  (machine, { rest }) => {
    const found = /^(\S+)[ \t]?[ ]*([^]*)$/u.exec(rest)
    if (!found) return
    const name = found[1]!
    const before = isMore ? (machine.names.strings.get(name) ?? '') : ''
    machine.names.setString(name, before + found[2]!.replace(/^"/u, '').replaceAll('\\\\', '\\'))
  }

const setRegister: Macro = (machine, { args }) => {
  const [name, value, step] = args
  if (name && value) machine.names.setRegister(name.value, value.value, step?.value)
}

const rename =
  (isCopy: boolean): Macro =>
  (machine, { args }) => {
    const [one, two] = args
    if (!one || !two) return
    // `.rn old new`, but `.als new old`.
    if (isCopy) machine.rename(two.value, one.value, true)
    else machine.rename(one.value, two.value, false)
  }

/** `.tr abcd`: b for a, d for c. */
const translate: Macro = (machine, { rest }) => {
  const signs = toRuns(rest, new Style(), new Map()).runs.flatMap(({ text }) => Array.from(text))
  for (let i = 0; i < signs.length; i += 2) {
    // A space that was written as an escape would be lost as white space at a line's end, so a pair may lack its end.
    machine.translate.set(signs[i]!, signs[i + 1] ?? ' ')
  }
}

/** `.tl 'left'middle'right'`. */
const title: Macro = (machine, { rest }) => {
  const parts = rest
    .slice(1)
    .split(rest[0] ?? "'")
    .filter((part) => part !== '')
  machine.flow.lineBreak()
  machine.text(parts.join(' '))
  machine.flow.lineBreak()
}

/** `.ce 3`: lines that are set alone. */
const centre: Macro = (machine) => machine.flow.lineBreak()

const points: Macro = (machine, { rest }) => {
  const target = splitArgs(rest)[0]
  if (target !== undefined) machine.note(`It points to another page for more: ${target}.`)
}

export const requests = new Map<string, Macro>([
  ...silent.split(' ').map((name): [string, Macro] => [name, nothing]),
  ['ds', setString(false)],
  ['ds1', setString(false)],
  ['as', setString(true)],
  ['as1', setString(true)],
  ['nr', setRegister],
  ['rn', rename(false)],
  ['als', rename(true)],
  ['rm', (machine, { args }) => args.forEach(({ value }) => machine.remove(value))],
  ['tr', translate],
  ['tl', title],
  ['so', points],
  ['ft', (machine, { args }) => machine.style.set(args[0]?.value ?? 'P')],
  ['nf', (machine) => machine.flow.setFill(false)],
  ['fi', (machine) => machine.flow.setFill(true)],
  ['br', (machine) => machine.flow.lineBreak()],
  ['ti', (machine) => machine.flow.lineBreak()],
  ['in', (machine) => machine.flow.lineBreak()],
  ['bp', (machine) => machine.flow.space()],
  ['ce', centre],
  ['rj', centre],
  ['sp', (machine, { args }) => (args[0]?.value.startsWith('-') ? undefined : machine.flow.space())],
  ['sv', (machine) => machine.flow.space()],
  ['nop', (machine, { rest }) => machine.read(rest)],
  ['do', (machine, { rest }) => machine.read(`.${rest}`)],
  ['eo', (machine) => void (machine.isLiteral = true)],
  ['ec', (machine) => void (machine.isLiteral = false)],
  ['ex', (machine) => machine.input.end()],
  ['return', (machine) => machine.input.leaveMacro()],
  ['shift', (machine, { args }) => machine.input.shift(Number(args[0]?.value ?? 1) || 0)],
])
