/**
 * What a shell needs so that its log tells commands, exit codes and places for sure: OSC 133 marks around the prompt,
 * and OSC 7 with a file URI of where it is (RFC 8089; the user before the host as in its appendix E.1). The help page
 * shows these lines, and the tests use them.
 */

/** For ~/.bashrc, behind what sets PS1. Keeps the person's own PROMPT_COMMAND and the exit status that it sees. */
export const bashSetUp =
  String.raw`__st_user=$(id -un)
__st_done() {
  local s=$?
  printf '\e]133;D;%s\e\\\e]7;file://%s@%s%s\e\\' "$s" "$__st_user" "$HOSTNAME" "` +
  '${PWD//%/%25}' +
  String.raw`"
  return "$s"
}
PROMPT_COMMAND="__st_done` +
  '${PROMPT_COMMAND:+; $PROMPT_COMMAND}' +
  String.raw`"
PS0='\e]133;C\e\\'"` +
  '${PS0-}' +
  String.raw`"
PS1='\[\e]133;A\e\\\]'"$PS1"'\[\e]133;B\e\\\]'
PS2='\[\e]133;A;k=s\e\\\]'"$PS2"'\[\e]133;B\e\\\]'
`

/** For ~/.zshrc, behind what sets PROMPT. */
export const zshSetUp =
  String.raw`_st_done() {
  local s=$?
  printf '\e]133;D;%s\e\\\e]7;file://%s@%s%s\e\\' "$s" "$USERNAME" "$HOST" "` +
  '${PWD//\\%/%25}' +
  String.raw`"
}
_st_run() { printf '\e]133;C\e\\' }
precmd_functions=(_st_done $precmd_functions)
preexec_functions+=(_st_run)
PROMPT=$'%{\e]133;A\e\\%}'$PROMPT$'%{\e]133;B\e\\%}'
PS2=$'%{\e]133;A;k=s\e\\%}'$PS2$'%{\e]133;B\e\\%}'
`

/** Starts a log of the shell that one is in, with the times beside it (util-linux script 2.35 or newer). */
export const startLog = 'script -f -T ~/terminal.timing ~/terminal.log'

/** The same of a session on another machine, kept on this one. */
export const startLogOverSsh = "script -f -T ~/gate.timing -c 'ssh gate.home.arpa' ~/gate.log"
