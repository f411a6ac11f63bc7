/**
 * Reads a terminal's log as it comes: bytes in, commands with their outputs, places, exit codes and files out.
 *
 * Where the shell marks its prompt (OSC 133) the marks say where a command begins and ends. Where it does not, and within
 * a marked command that leads to another shell, prompts are learned from the lines (prompts/).
 */
import { readFiles, type KnownFiles } from '../files/found-files.ts'
import { isComplete } from '../../shell/commands.ts'
import type { FoundCommand, FoundPlace, ScreenShot } from './found.ts'
import { PIECE, Screen, type Spot, type StoodLine } from './screen.ts'
import { Stretch, type FoundPrompt } from './stretch.ts'
import { placeOf } from './prompts/place.ts'
import { openingOf } from './prompts/programs.ts'
import type { PromptPlace } from './prompts/line.ts'

export interface LogReaderOptions {
  readonly columns: number
  readonly rows: number
  /** Told each command once, when its output has ended. */
  readonly onFound: (found: FoundCommand) => void
}

/** What runs now. */
export interface RunningCommand {
  readonly command: string
  readonly place: FoundPlace
  /** Milliseconds since 1970-01-01T00:00:00Z. */
  readonly started: number | null
}

/** How many pieces of a long push pass before found prompts are given. */
const GIVE_EVERY = 64
/** Longer command lines are no commands. UTF-16 code units. */
const LONGEST_COMMAND = 100_000

const noPlace: FoundPlace = { host: null, user: null, directory: null }

export class LogReader {
  private readonly screen: Screen
  private stretch: Stretch
  /** From where on lines were not settled yet. */
  private floor: Spot | undefined
  private hasMarks = false
  private prompt: Spot | undefined
  private promptText = ''
  private typing: Spot | undefined
  private isFurther = false
  /** Columns at which a marked continuation prompt ends, by its row. */
  private further: { readonly spot: Spot }[] = []
  private running: (RunningCommand & { readonly isOpening: boolean }) | null = null
  private innerFrom: number | null = null
  private place: FoundPlace = noPlace
  private titlePlace: FoundPlace = noPlace
  private known: KnownFiles = new Map()
  private knownHost: string | null = null
  private at: number | null = null
  private notes: string[] = []

  constructor(private readonly options: LogReaderOptions) {
    this.screen = new Screen(options, {
      onMark: (words) => this.onMark(words),
      onDirectory: (uri) => this.onDirectory(uri),
      onTitle: (title) => (this.titlePlace = maybeTitlePlace(title) ?? this.titlePlace),
      onErase: () => this.onErase(),
      onReset: (reset) => this.onReset(reset),
    })
    this.stretch = new Stretch(true)
    this.floor = this.screen.spot()
  }

  /**
   * Takes bytes that the terminal got.
   * @param at when, milliseconds since 1970-01-01T00:00:00Z; null where no time is known
   */
  async push(bytes: Uint8Array, at: number | null): Promise<void> {
    let pieces = 0
    for (let from = 0; from < bytes.length; from += PIECE) {
      this.at = at
      await this.screen.write(bytes.subarray(from, from + PIECE), at)
      this.settle()
      if (++pieces % GIVE_EVERY === 0) this.give(false)
    }
    this.give(false)
  }

  /** The terminal's window has another size from here on. */
  resize(columns: number, rows: number): void {
    this.settle()
    this.screen.resize(columns, rows)
  }

  /** Nothing more comes: what still ran is given as it stands. */
  end(): void {
    this.settle()
    if (this.running) this.finish(null)
    else this.give(true)
    this.screen.dispose()
  }

  /** The command that runs now, null at a prompt. */
  findRunning(): RunningCommand | null {
    const inner = this.stretch.findRunning(this.standing())
    if (inner) return { command: inner.command, place: this.foundPlace(inner.place, false), started: null }
    return this.running && { ...this.running }
  }

  private standing() {
    return this.floor && !this.screen.isAlternate ? this.screen.read(this.floor, 'all').lines : []
  }

  private settle(): void {
    if (!this.floor || this.screen.isAlternate) return
    const { lines, next } = this.screen.read(this.floor, 'settled')
    this.stretch.settle(lines)
    this.moveFloor(next)
  }

  /** Settles also what is about to be erased: most programs have sent the cursor to the top before. */
  private onErase(): void {
    if (!this.floor || this.screen.isAlternate) return
    this.stretch.settle(this.screen.read(this.floor, 'written').lines)
    this.moveFloor(this.screen.spot())
  }

  private onReset(reset: () => void): void {
    if (this.floor) this.stretch.settle(this.screen.read(this.floor, 'all').lines)
    reset()
    this.floor = this.screen.spot()
    this.prompt = undefined
    this.typing = undefined
    this.further = []
  }

  private moveFloor(to: Spot | undefined): void {
    if (!to) return
    if (to !== this.floor) this.floor?.row.dispose()
    this.floor = to
    this.screen.forgetBefore(to)
  }

  /** Gives the commands that were found by their prompts. */
  private give(isOver: boolean): void {
    if (this.hasMarks && !this.running?.isOpening) return
    for (const prompt of this.stretch.takeFound(this.standing(), isOver)) {
      this.innerFrom ??= prompt.from
      if (prompt.command !== '' || hasSpoken(prompt)) this.tell(this.toFound(prompt))
    }
  }

  private toFound(prompt: FoundPrompt): Omit<FoundCommand, 'files'> {
    const notes = prompt.leftOut > 0 ? [leftOutSentence(prompt.leftOut)] : []
    return {
      command: prompt.command,
      output: prompt.output,
      exitCode: null,
      place: this.foundPlace(prompt.place, false),
      started: prompt.started,
      ended: prompt.ended,
      foundBy: 'prompt',
      notes,
    }
  }

  private foundPlace(shown: PromptPlace, isMarked: boolean): FoundPlace {
    const own = {
      host: shown.host,
      user: shown.user ?? (shown.isRoot ? 'root' : null),
      directory: shown.directory,
    }
    if (!isMarked) return own
    const { place, titlePlace } = this
    return {
      host: place.host ?? own.host ?? titlePlace.host,
      user: place.user ?? own.user ?? titlePlace.user,
      directory: place.directory ?? own.directory ?? titlePlace.directory,
    }
  }

  private onMark(words: string): void {
    const [kind, ...rest] = words.split(';')
    this.hasMarks ||= kind === 'A' || kind === 'C'
    if (kind === 'A' || kind === 'P') this.onPrompt(rest.includes('k=s'))
    else if (kind === 'B') this.onTyping()
    else if (kind === 'C') this.onRun()
    else if (kind === 'D') this.finish(maybeExitCode(rest[0]))
  }

  private onPrompt(isFurther: boolean): void {
    this.isFurther = isFurther
    if (isFurther) return
    // A shell that was ended while its command ran gives no exit code.
    if (this.running) this.finish(null)
    else this.tellSpoken()
    this.prompt = this.screen.spot()
    this.typing = undefined
    this.further = []
  }

  /** What came at a marked prompt at which nothing was typed. What editors list there has words typed before it. */
  private tellSpoken(): void {
    const spot = this.screen.spot()
    if (!this.typing || !spot) return
    const [typed, ...rows] = this.screen.between(this.typing, spot)
    const output = rows
      .map(({ text }) => text.trimEnd())
      .join('\n')
      .replace(/^\n+|\n+$/g, '')
    if (typed?.text.trim() !== '' || output === '') return
    const place = this.foundPlace(placeIn(this.promptText), true)
    const when = { started: this.at, ended: this.at }
    this.tell({ command: '', output, exitCode: null, place, ...when, foundBy: 'marks', notes: [] })
  }

  private onTyping(): void {
    const spot = this.screen.spot()
    if (!spot) return
    if (this.isFurther) {
      this.further.push({ spot })
      this.isFurther = false
      return
    }
    if (this.prompt)
      this.promptText = this.screen
        .between(this.prompt, spot)
        .map(({ text }) => text)
        .join('\n')
    this.typing = spot
    this.further = []
  }

  private onRun(): void {
    const spot = this.screen.spot()
    if (!spot) return
    if (this.running) this.finish(null)
    const command = this.typing ? this.typed(this.typing, spot) : ''
    this.settle()
    const isOpening = openingOf(command) !== null
    this.running = {
      command,
      place: this.foundPlace(placeIn(this.promptText), true),
      started: this.at,
      isOpening,
    }
    this.innerFrom = null
    this.screen.takeShots()
    this.stretch = new Stretch(isOpening)
    this.moveFloor(spot)
    this.typing = undefined
  }

  /** What was typed between the prompt and where it ran, without the prompts of further lines. */
  private typed(from: Spot, to: Spot): string {
    let text = ''
    let isJoined = false
    const rows = this.screen.between(from, to)
    rows.forEach(({ row, text: own, isFull }, i) => {
      const marked = this.further.find(({ spot }) => spot.row.line === row)
      const isEditorsWrap = isJoined && !marked
      if (i === 0 || isEditorsWrap) text += own
      else {
        const line = marked ? own.slice(marked.spot.column) : withoutFurther(own, text)
        text += `\n${line}`
      }
      // Editors go to the next row by themselves at the window's edge.
      isJoined = isFull
    })
    return text.length > LONGEST_COMMAND ? '' : text.replace(/\s+$/, '')
  }

  private finish(exitCode: number | null): void {
    const { running, stretch } = this
    if (!running) return
    this.settle()
    const standing = withoutEndSign(this.standing())
    if (running.isOpening) this.give(true)
    const own = stretch.ownOutput(this.innerFrom)
    const rest = this.innerFrom === null ? standing.map(({ text }) => text) : []
    const settled = this.innerFrom === null ? stretch.store.count > 0 : own.text !== ''
    const output = [...(settled ? [own.text] : []), ...rest].join('\n').replace(/\n+$/, '')
    this.running = null
    const notes = own.leftOut > 0 ? [leftOutSentence(own.leftOut)] : []
    if (running.command !== '')
      this.tell({
        command: running.command,
        output,
        exitCode,
        place: running.place,
        started: running.started,
        ended: this.at,
        foundBy: 'marks',
        notes,
      })
    this.innerFrom = null
    this.stretch = new Stretch(!this.hasMarks)
    this.moveFloor(this.screen.spot())
  }

  private tell(found: Omit<FoundCommand, 'files'>): void {
    const shots: ScreenShot[] = this.screen.takeShots()
    // What is known of files holds on one machine only.
    if (found.place.host !== this.knownHost) this.known = new Map()
    this.knownHost = found.place.host
    const { files, known, notes } = readFiles(found, shots, this.known)
    this.known = known
    this.options.onFound({ ...found, files, notes: [...found.notes, ...notes, ...this.notes] })
    this.notes = []
  }

  private onDirectory(uri: string): void {
    const place = maybeUriPlace(uri)
    if (place) this.place = place
  }
}

/** Whether something came behind a prompt at which nothing was typed, and not what was typed and given up. */
const hasSpoken = ({ command, output, typed }: FoundPrompt): boolean =>
  command === '' && typed === '' && output.trim() !== ''

/** zsh sets a sign and blanks to the window's edge behind an output without a line end (its option PROMPT_SP). */
function withoutEndSign(lines: readonly StoodLine[]): readonly StoodLine[] {
  const last = lines.at(-1)
  if (!last?.isFull || !/[%#] +$/.test(last.text)) return lines
  const text = last.text.replace(/[%#] +$/, '')
  return text === '' ? lines.slice(0, -1) : [...lines.slice(0, -1), { ...last, text }]
}

const leftOutSentence = (lines: number): string =>
  `${lines} lines in the middle of this output were left out, since it is very long. The log holds them.`

function maybeExitCode(word: string | undefined): number | null {
  return word !== undefined && /^\d{1,3}$/.test(word) ? Number(word) : null
}

/** RFC 8089 §2 and appendix E.1: `file://user@host/directory`, percent-encoded. */
export function maybeUriPlace(uri: string): FoundPlace | null {
  const match = /^file:\/\/(?:([^@/]*)@)?([^/]*)(\/.*)$/.exec(uri)
  if (!match) return null
  const [, user, host, path] = match
  const decode = (text: string | undefined): string | null => {
    if (!text) return null
    try {
      return decodeURIComponent(text)
    } catch {
      return text
    }
  }
  return { host: decode(host), user: decode(user), directory: decode(path) }
}

/** Many shells set the window's title to `user@host: directory`. */
function maybeTitlePlace(title: string): FoundPlace | null {
  const match = /^([\w.-]+)@([\w.-]+):\s*(\S.*)$/.exec(title)
  if (!match) return null
  const directory = match[3]!.trim()
  return { user: match[1]!, host: match[2]!, directory: /^[~/]/.test(directory) ? directory : null }
}

/** What the prompt's own words say of the place. */
function placeIn(prompt: string): PromptPlace {
  const line = prompt.trimEnd().split('\n').join(' ')
  const sign = /[$#%>]$/.exec(line)?.[0] ?? ''
  return placeOf(line.slice(0, line.length - sign.length), sign, line.includes('@') ? 'account' : 'other')
}

/** A further line without the shell's own prompt for it, where the text before it is no whole command. */
function withoutFurther(line: string, before: string): string {
  return line.startsWith('> ') && !isComplete(before) ? line.slice(2) : line
}
