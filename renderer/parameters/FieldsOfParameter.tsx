/** The fields of a parameter: what it is called, what it may be, what helps to fill it in. */
import { valueTypes, type ValueType } from '../../shared/procedure/values/types.ts'
import { exampleOf } from '../../shared/procedure/values/check.ts'
import { Button, Field, TextArea, TextInput } from '../ui/index.ts'
import { NoticeIcon } from '../ui/icons.tsx'
import {
  hasBounds,
  hasNetworks,
  toRule,
  type FieldFault,
  type FieldFaults,
  type FieldName,
  type TypedFields,
} from './fields.ts'

interface FieldsProps {
  readonly typed: TypedFields
  readonly onType: (typed: TypedFields) => void
  /** Types that the value may have, the likeliest first. */
  readonly guessed: readonly ValueType[]
  readonly faults: FieldFaults
  /** The person wanted to keep it, so that what is missing is said too. */
  readonly isAsked: boolean
}

export function FieldsOfParameter({ typed, onType, guessed, faults, isAsked }: FieldsProps) {
  const set = (fields: Partial<TypedFields>): void => onType({ ...typed, ...fields })
  const isSecret = typed.type === 'secret'
  const others = valueTypes.filter((type) => !guessed.includes(type))
  const errorOf = (field: FieldName): string | undefined =>
    isAsked || (field !== 'name' && field !== 'rule') || typed.name !== ''
      ? faults[field]?.sentence
      : undefined
  return (
    <>
      <div className="st-parameter-row">
        <TextInput
          label="Name"
          isMono
          data-first
          value={typed.name}
          error={errorOf('name')}
          onChange={(event) => set({ name: event.target.value })}
        />
        <Field label="Type">
          {(attributes) => (
            <select
              {...attributes}
              className="st-input"
              value={typed.type}
              onChange={(event) => set({ type: event.target.value as ValueType })}
            >
              {guessed.length > 0 ? (
                <>
                  <optgroup label="From its form">{guessed.map(toOption)}</optgroup>
                  <optgroup label="Others">{others.map(toOption)}</optgroup>
                </>
              ) : (
                others.map(toOption)
              )}
            </select>
          )}
        </Field>
      </div>
      {isSecret ? (
        <p className="st-parameter-note">
          <NoticeIcon /> No value of a secret is kept: no example, no default, not what stood in its place.
        </p>
      ) : (
        <div className="st-parameter-row">
          <Valued
            label="Example"
            hint={typed.example === '' ? `For instance ${exampleOf(typed.type)}` : undefined}
            value={typed.example}
            fault={errorOf('example') === undefined ? undefined : faults.example}
            onType={(example) => set({ example })}
          />
          <Valued
            label="Default"
            hint="Taken where nothing is entered. May be empty."
            value={typed.preset}
            fault={errorOf('preset') === undefined ? undefined : faults.preset}
            onType={(preset) => set({ preset })}
          />
        </div>
      )}
      <TextArea
        label="Help"
        hint="Where to find the value, and what it is for."
        rows={2}
        value={typed.help}
        onChange={(event) => set({ help: event.target.value })}
      />
      <RuleFields typed={typed} set={set} fault={errorOf('rule')} />
    </>
  )
}

const toOption = (type: ValueType) => (
  <option key={type} value={type}>
    {type}
  </option>
)

interface ValuedProps {
  readonly label: string
  readonly hint: string | undefined
  readonly value: string
  readonly fault: FieldFault | undefined
  readonly onType: (value: string) => void
}

function Valued({ label, hint, value, fault, onType }: ValuedProps) {
  return (
    <div className="st-parameter-valued">
      <TextInput
        label={label}
        isMono
        hint={hint}
        value={value}
        error={fault?.sentence}
        onChange={(event) => onType(event.target.value)}
      />
      {fault?.mend ? <MendButton text={fault.mend.text} onTake={onType} /> : null}
    </div>
  )
}

/** Offers the text that would be right; never taken unasked. */
export function MendButton({
  text,
  onTake,
}: {
  readonly text: string
  readonly onTake: (text: string) => void
}) {
  return (
    <Button look="quiet" className="st-mend" onClick={() => onTake(text)}>
      Write it <code className="st-mono">{text}</code>
    </Button>
  )
}

interface RuleFieldsProps {
  readonly typed: TypedFields
  readonly set: (fields: Partial<TypedFields>) => void
  readonly fault: string | undefined
}

function RuleFields({ typed, set, fault }: RuleFieldsProps) {
  const { type } = typed
  const word = (label: string, key: 'pattern' | 'least' | 'most' | 'within', hint?: string) => (
    <TextInput
      label={label}
      isMono
      hint={hint}
      value={typed[key]}
      onChange={(event) => set({ [key]: event.target.value })}
    />
  )
  return (
    <details className="st-parameter-rule" open={toRule(typed) !== null || undefined}>
      <summary>Rule beyond the type</summary>
      <div className="st-parameter-rules">
        {type === 'secret' ? null : (
          <TextArea
            label="Only these values"
            hint="One value on each line. Leave it empty to take any value."
            isMono
            rows={2}
            value={typed.allowed}
            onChange={(event) => set({ allowed: event.target.value })}
          />
        )}
        {hasBounds(type) ? (
          <div className="st-parameter-row">
            {word('Least', 'least')}
            {word('Most', 'most')}
          </div>
        ) : null}
        {hasNetworks(type) ? word('Within the network', 'within', 'For instance 192.0.2.0/24') : null}
        {type === 'version' ? (
          <Field label="Order of versions">
            {(attributes) => (
              <select
                {...attributes}
                className="st-input"
                value={typed.order}
                onChange={(event) => set({ order: event.target.value as TypedFields['order'] })}
              >
                <option value="Debian">as Debian’s dpkg orders them</option>
                <option value="semver">as Semantic Versioning orders them</option>
              </select>
            )}
          </Field>
        ) : null}
        {word('Pattern', 'pattern', 'RE2 syntax; the whole value must fit.')}
        {fault === undefined ? null : (
          <p className="st-field-error" role="alert">
            {fault}
          </p>
        )}
      </div>
    </details>
  )
}
