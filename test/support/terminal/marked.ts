/**
 * Records a session of a shell that marks its prompt, with what the shell itself wrote of each command before it ran it
 * (bash: a DEBUG trap; zsh: preexec) and of each exit code.
 */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { bashSetUp, zshSetUp } from '../../../shared/journal/terminal/shellSetUp.ts'
import { recordSession } from './editor-session.ts'

/** What the shell wrote of one command. */
export interface ShellSaid {
  readonly user: string
  readonly host: string
  readonly directory: string
  readonly command: string
  readonly exitCode: number
}

export interface MarkedSession {
  readonly shell: 'bash' | 'zsh'
  readonly keys: readonly string[]
  readonly columns?: number
  readonly rows?: number
}

export interface MarkedRecording {
  readonly pieces: readonly Uint8Array[]
  readonly said: readonly ShellSaid[]
  /** The folder that the session ran in; gone now. */
  readonly directory: string
}

const bashTruth = String.raw`
shopt -s lithist; HISTFILE=; set -o history; HISTCONTROL=
__t_log() {
  [ "$__t_armed" = 1 ] && [ "$BASH_COMMAND" != __st_done ] && [ "$(printf %s "$BASH_COMMAND" | cut -c1-8)" != __t_exit ] || return 0
  __t_armed=
  printf '%s\037%s\037%s\037%s\037' "$(id -un)" "$HOSTNAME" "$PWD" "$(HISTTIMEFORMAT= builtin history 1 | sed '1s/^ *[0-9]*  //')" >> "$T_LOG"
}
__t_exit() { [ "$__t_armed" = 1 ] || printf '%s\036' "$1" >> "$T_LOG"; __t_armed=1; }
PROMPT_COMMAND="$PROMPT_COMMAND; __t_exit \$?"
trap __t_log DEBUG
`
const zshTruth = String.raw`
_t_log() { printf '%s\037%s\037%s\037%s\037' "$USERNAME" "$HOST" "$PWD" "$1" >> "$T_LOG"; _t_ran=1 }
_t_exit() { local s=$?; [ "$_t_ran" = 1 ] && printf '%s\036' "$s" >> "$T_LOG"; _t_ran= }
preexec_functions=(_t_log $preexec_functions)
precmd_functions=(_t_exit $precmd_functions)
`

/** Records a session. What is typed must end with the shell's end. */
export async function recordMarked({
  shell,
  keys,
  columns = 80,
  rows = 24,
}: MarkedSession): Promise<MarkedRecording> {
  const directory = mkdtempSync(join(tmpdir(), 'marked-'))
  const log = join(directory, '.said')
  writeFileSync(log, '')
  const isBash = shell === 'bash'
  const rc = join(directory, isBash ? '.bashrc' : '.zshrc')
  writeFileSync(rc, startFileOf(shell))
  const command = isBash ? `exec bash --noprofile --rcfile ${rc} -i` : 'exec zsh -i'
  const environment = { T_LOG: log, HOME: directory, ZDOTDIR: directory, HOSTNAME: 'desk', HOST: 'desk' }
  const { pieces } = await recordSession({ command, keys, directory, columns, rows, environment })
  const said = readSaid(log)
  rmSync(directory, { recursive: true })
  return { pieces, said, directory }
}

/** A shell's start file: a prompt with user, host and directory, our marks, and the shell's own record in `$T_LOG`. */
export function startFileOf(shell: MarkedSession['shell']): string {
  return shell === 'bash'
    ? `PS1='\\u@\\h:\\w\\$ '\n${bashSetUp}${bashTruth}`
    : `PROMPT='%n@%m:%~%# '\n${zshSetUp}${zshTruth}`
}

/** What a shell wrote into its record. */
export function readSaid(log: string): ShellSaid[] {
  return readFileSync(log, 'utf8')
    .split('\u001e')
    .filter((record) => record.includes('\u001f'))
    .map((record) => {
      const [user, host, place, words, exitCode] = record.split('\u001f') as [
        string,
        string,
        string,
        string,
        string,
      ]
      return { user, host, directory: place, command: words, exitCode: Number(exitCode) }
    })
}
