/** One value of a procedure that is made for another host, checked as it is typed. */
import type { Parameter } from '../../shared/lab/model.ts'
import { plainWords } from '../../shared/markdown/words.ts'
import { TextInput } from '../ui/index.ts'
import { MendButton } from './FieldsOfParameter.tsx'
import { checkTyped } from './filled.ts'

interface ValueFieldProps {
  readonly parameter: Parameter
  readonly value: string
  readonly isFirst: boolean
  readonly onType: (value: string) => void
}

export function ValueField({ parameter, value, isFirst, onType }: ValueFieldProps) {
  const { name, type, example, help } = parameter
  const isSecret = type === 'secret'
  const checked = checkTyped(parameter, value)
  const hints = [
    plainWords(help, 300),
    type + (example === '' ? '' : `, for instance ${example}`),
    ...(checked?.ok && checked.note !== null ? [checked.note] : []),
    ...(checked?.ok && checked.mend ? [checked.mend.sentence] : []),
  ]
  return (
    <div className="st-parameter-valued">
      <TextInput
        label={name}
        isMono
        type={isSecret ? 'password' : 'text'}
        // `new-password` keeps browsers from filling in one that they know (HTML §4.10.18.7), and from asking to keep it.
        autoComplete={isSecret ? 'new-password' : 'off'}
        spellCheck={false}
        {...(isFirst ? { 'data-first': true } : {})}
        value={value}
        hint={hints.filter((hint) => hint !== '').join(' · ')}
        error={checked && !checked.ok ? checked.sentence : undefined}
        onChange={(event) => onType(event.target.value)}
      />
      {checked?.mend && !isSecret ? <MendButton text={checked.mend.text} onTake={onType} /> : null}
    </div>
  )
}
