/** A prompt that a session is at, or will come back to. */
import type { Candidate, Form } from './candidate.ts'
import type { PromptPlace } from './line.ts'
import { placeOf } from './place.ts'
import { innerPrompts, type InnerPrompt } from './programs.ts'

interface Common {
  /** What the prompts around say of the place, as far as it holds here. */
  readonly around: PromptPlace
}

export interface ShellLevel extends Common {
  readonly kind: 'shell'
  readonly key: string
  readonly form: Form
  readonly identity: string
  readonly anchor: string
  readonly sign: string
  /** Characters before the account. */
  readonly lead: number
  /** Their shape. */
  readonly shape: string
  /** Other shapes that they had: how the last command ended comes and goes. */
  readonly shapes: readonly string[]
  /** How the upper line begins, null where there is one line. */
  readonly head: string | null
  /** How long the lines of all its prompts are, by a second prompt at the right edge; null where one had none. */
  readonly edge: number | null
  /** How many prompts of it were met. */
  readonly met: number
  /** Whether its program is known to switch bracketed paste on at its prompts. */
  readonly isEdited: boolean
  /** The prompt for further lines, once it was seen. */
  readonly further: string | null
}

export interface InnerLevel extends Common {
  readonly kind: 'inner'
  readonly prompt: InnerPrompt
}

export type Level = ShellLevel | InnerLevel

/** Whether a candidate is the prompt of a level. What a text holds by chance is told apart elsewhere. */
export function isOf(level: ShellLevel, candidate: Candidate, isPrompt: (key: string) => boolean): boolean {
  if (level.sign !== candidate.sign) return false
  if (level.form === 'account' || candidate.form === 'account')
    return level.identity === candidate.identity && hasLead(level, candidate)
  if (level.key === candidate.key) return level.identity === candidate.identity
  if (!isPrompt(candidate.key)) return false
  if (level.form === 'folder' && candidate.form === 'folder') return true
  return level.anchor !== '' && level.anchor === candidate.anchor
}

const hasLead = ({ shape, shapes }: ShellLevel, { leadShape }: Candidate): boolean =>
  shape === leadShape || shapes.includes(leadShape)

export function isNamed(name: string): InnerPrompt | null {
  return innerPrompts.find((inner) => inner.name === name) ?? null
}

const nowhere: PromptPlace = { host: null, user: null, directory: null, folder: null, isRoot: false }

/** What still holds of a place behind a command that leads to another shell. */
export function placeBehind(command: string, place: PromptPlace): PromptPlace {
  if (
    /(?:^|[\s;&|])(?:ssh|mosh|telnet|rlogin|login|docker|podman|kubectl|lxc|incus|machinectl|virsh|chroot|systemd-nspawn|minicom|picocom|cu|tio|screen)\s/u.test(
      ` ${command} `,
    )
  ) {
    return nowhere
  }
  const same = { ...nowhere, host: place.host }
  return /(?:^|[\s;&|])(?:su|sudo|doas|runuser|exit|logout)(?:\s|$)/u.test(command)
    ? same
    : { ...same, user: place.user }
}

/** The place that the upper line shows, nothing where there is none. */
export function placeOfHead(head: string | null): PromptPlace {
  return head === null ? nowhere : placeOf(head.replace(/\s[$#%>❯➜λ»›]*$/u, ''), '', 'other')
}
