/** Dropping on the procedure: which drags are taken, and what is done with what they bring. */
import type { DragEvent } from 'react'
import { nameOfPlace, type LandingPlace } from '../../../shared/distil/landing.ts'
import type { Fragment } from '../../../shared/distil/fragment.ts'
import { wordPartKinds, type CarryWay, type Step, type StepPartKind } from '../../../shared/lab/model.ts'
import { bringsFragment, takeFragment } from '../../editor/fragments.ts'
import { carryFragment } from '../../store/gestures.ts'
import type { Workspace } from '../../store/workspace.ts'
import { bringPlainText, plainKind } from './plainText.ts'
import { setPane } from './paneStore.ts'

/** A step on its way to another place of the procedure; never a fragment. */
export const STEP_TYPE = 'application/x-stillroom-step'

/**
 * What may land: a fragment that is dragged or picked in this window, one from another window whose content cannot be
 * read before it is dropped, or plain text from another program.
 */
export type Comer =
  | { readonly kind: 'fragment'; readonly fragment: Fragment }
  | { readonly kind: 'unread fragment' }
  | { readonly kind: 'text' }

/** What a drag brings that can land in a procedure; null for files and steps. */
export function broughtBy(transfer: DataTransfer): 'fragment' | 'text' | null {
  if (bringsFragment(transfer)) return 'fragment'
  if (transfer.types.includes(STEP_TYPE) || transfer.types.includes('Files')) return null
  return transfer.types.includes('text/plain') ? 'text' : null
}

/** The usual kind of part for what comes; null while it cannot be known yet. */
export function usualKind(comer: Comer, kindOf: (fragment: Fragment) => StepPartKind): StepPartKind | null {
  if (comer.kind === 'fragment') return kindOf(comer.fragment)
  return comer.kind === 'text' ? plainKind : null
}

/** The kinds that a step offers beside the usual one, in reading order. */
export function otherKinds(usual: StepPartKind | null): StepPartKind[] {
  return wordPartKinds.filter((kind) => kind !== usual)
}

/** What a place is called for what comes; plain where the kind is only known once it is dropped. */
export function nameFor(comer: Comer, place: LandingPlace, steps: readonly Step[]): string {
  if (comer.kind === 'fragment') return nameOfPlace(place, comer.fragment, steps)
  if (comer.kind === 'text') return nameOfPlace(withPlainKind(place), anyOrigin, steps)
  const name = nameOfPlace(place, anyOrigin, steps)
  if ('kind' in place && place.kind !== undefined) return name
  return place.at === 'step' ? name.replace(/^.* of step/u, 'Onto step') : name.replace(/: [^:]*$/u, '')
}

const anyOrigin = { origin: { kind: 'source' }, fence: null } as const

function withPlainKind(place: LandingPlace): LandingPlace {
  if (place.at !== 'new step' && place.at !== 'step') return place
  return { ...place, kind: place.kind ?? plainKind }
}

/** A place, or how to make it: a project without a procedure gets one when something lands. */
export type Target = LandingPlace | (() => Promise<LandingPlace | null>)

/** Takes what was dropped on a place. */
export function land(workspace: Workspace, event: DragEvent, target: Target): void {
  const brought = broughtBy(event.dataTransfer)
  if (!brought) return
  event.preventDefault()
  event.stopPropagation()
  setPane({ visiting: null })
  // What a drop brings can only be read while it is being told of.
  const plain = event.dataTransfer.getData('text/plain')
  const fragment = takeFragment(event.dataTransfer)
  if (brought === 'text') void bringTo(workspace, plain, target)
  else if (fragment) void carryAndEnd(workspace, fragment, target, 'drag')
  else
    workspace.say(
      'problem',
      'What was dropped could not be read. Nothing was changed; drag it again from its pane.',
    )
}

async function bringTo(workspace: Workspace, plain: string, target: Target): Promise<void> {
  if (plain.trim() === '') return
  const place = await placeAt(target)
  if (place) await bringPlainText(workspace, plain, place)
}

async function placeAt(target: Target): Promise<LandingPlace | null> {
  return typeof target === 'function' ? target() : target
}

/** Carries, and ends what was dragged or picked when that went well. */
export async function carryAndEnd(
  workspace: Workspace,
  fragment: Fragment,
  target: Target,
  way: CarryWay,
): Promise<void> {
  const place = await placeAt(target)
  if (!place) return
  const result = await carryFragment(workspace, fragment, place, way)
  if (result.ok) workspace.set({ carrying: null, dragging: null })
}
