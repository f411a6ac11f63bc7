import { useId, type InputHTMLAttributes, type ReactNode, type Ref, type TextareaHTMLAttributes } from 'react'
import { WarningIcon } from './icons.tsx'

export interface FieldProps {
  readonly label: string
  /** A sentence below the field that helps to fill it. */
  readonly hint?: string | undefined
  /** A sentence that says what is wrong and what would be right. */
  readonly error?: string | undefined
  /** Keeps the label for assistive technology only, where the place makes the meaning plain to the eye. */
  readonly hidesLabel?: boolean
  /** Draws the control; the attributes tie it to its label, hint and error. */
  readonly children: (attributes: FieldAttributes) => ReactNode
}
export interface FieldAttributes {
  readonly id: string
  readonly 'aria-describedby': string | undefined
  readonly 'aria-invalid': true | undefined
}

/** A label, a control, and the sentences that belong to it. */
export function Field({ label, hint, error, hidesLabel = false, children }: FieldProps) {
  const id = useId()
  const described = [hint === undefined ? '' : `${id}-hint`, error === undefined ? '' : `${id}-error`].filter(
    Boolean,
  )
  return (
    <div className="st-field">
      <label htmlFor={id} className={hidesLabel ? 'st-unseen' : 'st-field-label'}>
        {label}
      </label>
      {children({
        id,
        'aria-describedby': described.length === 0 ? undefined : described.join(' '),
        'aria-invalid': error === undefined ? undefined : true,
      })}
      {hint === undefined ? null : (
        <p id={`${id}-hint`} className="st-field-hint">
          {hint}
        </p>
      )}
      {error === undefined ? null : (
        <p id={`${id}-error`} className="st-field-error">
          <WarningIcon /> {error}
        </p>
      )}
    </div>
  )
}

type Sentences = Omit<FieldProps, 'children'>

export interface TextInputProps
  extends Sentences, Omit<InputHTMLAttributes<HTMLInputElement>, 'id' | 'size'> {
  /** For addresses, paths, commands. */
  readonly isMono?: boolean
  readonly ref?: Ref<HTMLInputElement>
}

/** One line of text with its label. */
export function TextInput({
  label,
  hint,
  error,
  hidesLabel,
  isMono = false,
  className,
  ...rest
}: TextInputProps) {
  return (
    <Field label={label} hint={hint} error={error} hidesLabel={hidesLabel ?? false}>
      {(attributes) => (
        <input type="text" {...rest} {...attributes} className={inputClasses(isMono, className)} />
      )}
    </Field>
  )
}

export interface TextAreaProps extends Sentences, Omit<TextareaHTMLAttributes<HTMLTextAreaElement>, 'id'> {
  readonly isMono?: boolean
  readonly ref?: Ref<HTMLTextAreaElement>
}

/** Several lines of text with their label. */
export function TextArea({
  label,
  hint,
  error,
  hidesLabel,
  isMono = false,
  className,
  rows = 4,
  ...rest
}: TextAreaProps) {
  return (
    <Field label={label} hint={hint} error={error} hidesLabel={hidesLabel ?? false}>
      {(attributes) => (
        <textarea rows={rows} {...rest} {...attributes} className={inputClasses(isMono, className)} />
      )}
    </Field>
  )
}

function inputClasses(isMono: boolean, more: string | undefined): string {
  return ['st-input', isMono ? 'st-mono' : '', more ?? ''].filter((name) => name !== '').join(' ')
}
