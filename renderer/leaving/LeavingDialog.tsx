/** Shows what looks like a secret in a file that is about to leave. */
import { useStore } from 'zustand'
import { secretKinds } from '../../shared/safety/secrets/rules.ts'
import type { SecretFound } from '../../shared/safety/secrets/scan.ts'
import { Button, Dialog } from '../ui/index.ts'
import { leaving } from './leaving.ts'
import './leaving.css'

/** At most so many signs of a secret are shown, and of a short one fewer: enough to know it again, not enough to use it. */
const SIGNS_SHOWN = 4
const SHARE_SHOWN = 1 / 4

export function LeavingDialog() {
  const waiting = useStore(leaving, (state) => state.waiting)
  if (!waiting) return null
  const { found, what, answer } = waiting
  const count = found.length === 1 ? 'something that looks' : `${found.length} texts that look`
  return (
    <Dialog
      title="Before it leaves"
      width="wide"
      onClose={() => answer(false)}
      actions={
        <>
          <Button onClick={() => answer(true)}>Let it leave</Button>
          <Button look="strong" data-first onClick={() => answer(false)}>
            Keep it here
          </Button>
        </>
      }
    >
      <p>{`${what} holds ${count} like a secret. Nothing has left yet.`}</p>
      <ul className="st-leaving" tabIndex={0} aria-label="What looks like a secret">
        {found.map((one) => (
          <Line key={one.secret} found={one} />
        ))}
      </ul>
      <p className="st-leaving-note">
        To take one out, strike it out where it stands and export again. Only forms that are known are found:
        a password in a sentence is not.
      </p>
    </Dialog>
  )
}

function Line({ found: { kind, before, secret } }: { readonly found: SecretFound }) {
  const words = secretKinds[kind]
  const shown = secret.slice(0, Math.min(SIGNS_SHOWN, Math.floor(secret.length * SHARE_SHOWN)))
  return (
    <li>
      <span>{`${words.charAt(0).toUpperCase()}${words.slice(1)}`}</span>
      <code>{`${before}${shown}…`}</code>
    </li>
  )
}
