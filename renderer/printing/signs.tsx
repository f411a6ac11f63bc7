/**
 * The signs that stand on paper, as drawings: the icons of the screen are characters of a font, and characters of its
 * own would stand among the words of a PDF for whoever copies from it or has it read aloud.
 */
import type { ComponentType } from 'react'
import type { IconProps } from '@phosphor-icons/react'
import { HandPalmIcon } from '@phosphor-icons/react/dist/csr/HandPalm'
import { InfoIcon } from '@phosphor-icons/react/dist/csr/Info'
import { WarningIcon } from '@phosphor-icons/react/dist/csr/Warning'
import { WarningCircleIcon } from '@phosphor-icons/react/dist/csr/WarningCircle'
import { WarningOctagonIcon } from '@phosphor-icons/react/dist/csr/WarningOctagon'
import type { SignalWord } from '../../shared/safety/signal-words/caution.ts'

const drawings: Readonly<Record<SignalWord | 'unsaid' | 'hold', ComponentType<IconProps>>> = {
  danger: WarningOctagonIcon,
  warning: WarningIcon,
  caution: WarningCircleIcon,
  notice: InfoIcon,
  unsaid: WarningIcon,
  hold: HandPalmIcon,
}

/** The sign beside a signal word, of a caution without one, or of a hold point. The word says the same. */
export function PrintedSign({ of }: { readonly of: keyof typeof drawings }) {
  const Drawing = drawings[of]
  return <Drawing aria-hidden="true" focusable="false" className="st-icon" weight="fill" size="1.3em" />
}
