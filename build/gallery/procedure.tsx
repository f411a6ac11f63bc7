import type { ReactNode } from 'react'
import type { StepPartKind } from '../../shared/lab/model.ts'
import { Button, LinkBadge, PartLabel } from '../../renderer/ui/index.ts'
import { AddIcon, DangerIcon, DragHandleIcon, MoreIcon, TraceIcon } from '../../renderer/ui/icons.tsx'

interface PartProps {
  readonly end?: string | undefined
  readonly kind: StepPartKind
  readonly trace?: ReactNode
  readonly children: ReactNode
}

function Part({ kind, end, trace, children }: PartProps) {
  return (
    <div className={`st-part st-part--${kind.replaceAll(' ', '-')}`} data-end={end}>
      <div className="st-part-head">
        <PartLabel kind={kind} />
        {trace}
      </div>
      <div className="st-part-text st-prose">{children}</div>
    </div>
  )
}

function Step({
  number,
  chosen = false,
  children,
}: {
  readonly number: number
  readonly chosen?: boolean
  readonly children: ReactNode
}) {
  return (
    <li className={chosen ? 'st-step st-step--chosen' : 'st-step'}>
      <div className="st-step-margin">
        <span className="st-step-number">{number}</span>
        <span className="st-step-tools">
          <button type="button" className="st-handle" aria-label={`Move step ${number}`}>
            <DragHandleIcon />
          </button>
          <Button look="quiet" icon={MoreIcon} label={`More for step ${number}`} />
        </span>
      </div>
      <div className="st-step-parts">{children}</div>
    </li>
  )
}

function From({ type, words }: { readonly type: 'quotes' | 'derives'; readonly words: string }) {
  return (
    <button type="button" className="st-from">
      <TraceIcon />
      <LinkBadge type={type} />
      <span className="st-from-words">{words}</span>
    </button>
  )
}

export function Procedure({ isDragging }: { readonly isDragging: boolean }) {
  return (
    <article className="st-procedure">
      <h3 className="st-procedure-title">Move the weather logger from its card to a disk</h3>
      <p className="st-procedure-purpose st-prose">
        For when the card of mistral wears out. Takes half an hour; the logger is silent for about twenty
        minutes of it.
      </p>
      <ol className="st-steps">
        <Step number={3}>
          <div className="st-part st-part--caution st-part--warning">
            <div className="st-part-head">
              <span className="st-part-label">
                <DangerIcon weight="fill" /> Warning
              </span>
            </div>
            <div className="st-part-text st-prose">
              <p>
                The next step writes over the whole disk. Compare the serial number on its label with what the
                machine says.
              </p>
            </div>
          </div>
          <Part kind="do">
            <p>Find the disk by its serial number.</p>
            <pre className="st-code">lsblk -o NAME,SIZE,SERIAL /dev/sda</pre>
          </Part>
        </Step>
        <Step number={4} chosen>
          <Part kind="do" end="part-4-do" trace={<From type="quotes" words="19:18, action" />}>
            <p>Copy the running system to the disk.</p>
            <pre className="st-code">rsync -aHAX --one-file-system / /mnt/new/</pre>
          </Part>
          {isDragging ? (
            <div className="st-landing-row">
              <div className="st-landing st-landing--over">Expect of step 4</div>
              <div className="st-landing">If it fails, step 4</div>
              <div className="st-landing">Why of step 4</div>
            </div>
          ) : (
            <Part kind="why" end="part-4-why" trace={<From type="derives" words="19:04, decision" />}>
              <p>A copy made while a service writes can hold a file that was never whole.</p>
            </Part>
          )}
        </Step>
        {isDragging ? (
          <li className="st-landing st-landing--between">
            <AddIcon /> New step after 4
          </li>
        ) : null}
        <Step number={5}>
          <Part kind="do">
            <p>
              Put the disk’s <code>PARTUUID</code> in <code>/etc/fstab</code> and in{' '}
              <code>/boot/cmdline.txt</code>, then restart.
            </p>
          </Part>
          <Part kind="expect" trace={<From type="quotes" words="19:53, output" />}>
            <pre className="st-code">
              {'TARGET SOURCE    FSTYPE OPTIONS\n/      /dev/sda2 ext4   rw,noatime'}
            </pre>
          </Part>
          <Part kind="if it fails" trace={<From type="derives" words="19:41, problem" />}>
            <p>
              If it still runs from the card, one of the two files holds the old identifier. Correct it and
              restart.
            </p>
          </Part>
        </Step>
      </ol>
      <Button icon={AddIcon}>Add a step</Button>
    </article>
  )
}
