/** Help on one matter, beside the panes. */
import type { ReactNode } from 'react'
import { bashSetUp, startLog, startLogOverSsh, zshSetUp } from '../../shared/journal/terminal/shellSetUp.ts'
import type { HelpPage } from '../store/panels.ts'
import { useWorkspace } from '../store/useWorkspace.ts'
import { Panel } from '../trace/Panel.tsx'
import { Button } from '../ui/index.ts'
import { CopyIcon } from '../ui/icons.tsx'
import { Keys } from './Keys.tsx'
import { ProcedureKeys } from './ProcedureKeys.tsx'
import './help.css'

interface Face {
  readonly title: string
  /** The band over which it stands: not over what it speaks of. */
  readonly band: 'journal' | 'procedure'
  readonly Body: () => ReactNode
}

const faces: Readonly<Record<HelpPage, Face>> = {
  'terminal logs': { title: 'How to log a terminal', band: 'procedure', Body: TerminalLogs },
  keys: { title: 'Keys', band: 'procedure', Body: Keys },
  'keys of the procedure': { title: 'Keys of the procedure', band: 'journal', Body: ProcedureKeys },
}

export function HelpPanel({ page }: { readonly page: HelpPage }): ReactNode {
  const workspace = useWorkspace()
  const { title, band, Body } = faces[page]
  return (
    <Panel title={title} band={band} className="st-help-panel" onClose={() => workspace.set({ panel: null })}>
      <div className="st-panel-body st-scroll st-help" tabIndex={0} role="group" aria-label={title}>
        <Body />
      </div>
    </Panel>
  )
}

function TerminalLogs() {
  return (
    <>
      <h3>Start a log</h3>
      <p>
        In bash or zsh, this one line writes all that the terminal shows to a file, at once, and the times to
        a second one. Leave it with <code>exit</code>. It needs script of util-linux 2.35 or newer.
      </p>
      <Lines name="the line for this machine" text={startLog} />
      <p>Over ssh, with the log on this machine. Put your own host in place of the name.</p>
      <Lines name="the line for ssh" text={startLogOverSsh} />
      <p>
        Then open “Terminal logs”, press “Follow a log…” and choose <code>terminal.log</code>. Add its timing
        file there, and the entries stand at their own times also when the log is brought in later.
      </p>
      <p>
        A multiplexer’s pipe and a serial console’s log can be followed too. They do not say how wide the
        window is, so you are asked.
      </p>
      <h3>Let the shell mark its prompt</h3>
      <p>
        With these lines commands, exit codes and places are known for sure. Without them they are found by
        the look of the prompt, and how a command ended stays unknown. They belong where the shell runs: on a
        machine that you log into, in its own file.
      </p>
      <p>
        At the end of <code>~/.bashrc</code>:
      </p>
      <Lines name="the lines for bash" text={bashSetUp} />
      <p>
        At the end of <code>~/.zshrc</code>:
      </p>
      <Lines name="the lines for zsh" text={zshSetUp} />
      <h3>Secrets</h3>
      <p>
        A password that you type at a prompt is not echoed and so is in no log. What a program prints is, and
        so is a password that stands in a command. Look before you take an entry, and strike out what got in.
        Never log the keys (<code>--log-in</code>, <code>--log-io</code>): they hold passwords. Where a
        recording holds them, they are left out here.
      </p>
      <p>The log itself is a plain file on your disk. Keep it or delete it as you would its contents.</p>
    </>
  )
}

function Lines({ name, text }: { readonly name: string; readonly text: string }) {
  const workspace = useWorkspace()
  const copy = async (): Promise<void> => {
    const copied = await workspace.host.copyText({ text })
    workspace.say(copied.ok ? 'done' : 'problem', copied.ok ? `Copied ${name}.` : copied.sentence)
  }
  return (
    <div className="st-help-lines">
      <pre tabIndex={0} aria-label={name}>
        {text.trimEnd()}
      </pre>
      <Button look="quiet" icon={CopyIcon} label={`Copy ${name}`} onClick={() => void copy()}>
        Copy
      </Button>
    </div>
  )
}
