/** The commands of an entry: what copying one puts on the clipboard, and how each of them ended. */
import type { Page } from '@playwright/test'
import type { Launched } from './support/launch.ts'
import { beginProject, entries } from './support/panes.ts'
import { expect, test } from './support/test.ts'

async function writeAction(page: Page, text: string) {
  const before = await entries(page).count()
  await page.keyboard.press('Alt+1')
  await page.keyboard.insertText(text)
  await page.keyboard.press('Control+Enter')
  await expect(entries(page)).toHaveCount(before + 1)
  return entries(page).last()
}

/** What is on the clipboard: asked of the shell, or pasted into a field where there is none. */
async function clipboardOf({ page, shell }: Launched): Promise<string> {
  if (shell)
    return shell.evaluate(({ clipboard }) => (clipboard as unknown as { readText(): string }).readText())
  await page.evaluate(() => {
    const field = document.createElement('textarea')
    field.id = 'pasted'
    document.body.append(field)
    field.focus()
  })
  await page.keyboard.press('Control+v')
  const text = await page.locator('#pasted').inputValue()
  await page.evaluate(() => document.getElementById('pasted')!.remove())
  return text
}

/** What was copied before is no longer there. */
async function forget({ page, shell }: Launched): Promise<void> {
  if (shell) await shell.evaluate(({ clipboard }) => (clipboard as unknown as { clear(): void }).clear())
  else await page.evaluate(() => navigator.clipboard.writeText('before'))
}

const block = (language: string, ...lines: string[]): string =>
  [`\`\`\`${language}`, ...lines, '```'].join('\n')

const samples = [
  { what: 'without a prompt', text: block('sh', 'lsblk -o NAME,SIZE'), command: 'lsblk -o NAME,SIZE' },
  {
    what: 'behind a user’s prompt',
    text: block('console', '$ df -h /srv', 'Filesystem  Size  Used', '/dev/sda2    40G   12G'),
    command: 'df -h /srv',
  },
  {
    what: 'behind root’s prompt',
    text: block('console', '# smartctl -H /dev/sda', 'PASSED'),
    command: 'smartctl -H /dev/sda',
  },
  {
    what: 'over several lines',
    text: block('sh', 'rsync -a \\', '  /srv/log/ \\', '  rack.example.org:/srv/log/'),
    command: 'rsync -a \\\n  /srv/log/ \\\n  rack.example.org:/srv/log/',
  },
  {
    what: 'with a here-document',
    text: block('sh', "cat > /etc/motd <<'END'", 'The mast is live.', '', '  Ask before you climb.', 'END'),
    command: "cat > /etc/motd <<'END'\nThe mast is live.\n\n  Ask before you climb.\nEND",
  },
]

test('a command is copied exactly, by key, by button and by menu', async ({ program }) => {
  const { page } = program
  await beginProject(page, 'Move the mast UPS')
  for (const { what, text, command } of samples) {
    const action = await writeAction(page, text)
    const copied = page.getByText('Copied the command.').last()
    const ways = [
      () => action.focus().then(() => page.keyboard.press('c')),
      () => action.getByRole('button', { name: 'Copy command' }).click(),
      async () => {
        await action.focus()
        await page.keyboard.press('Enter')
        await page.getByRole('menuitem', { name: 'Copy command' }).press('Enter')
      },
    ]
    for (const [at, copy] of ways.entries()) {
      await forget(program)
      await copy()
      await expect(copied).toBeVisible()
      await expect.poll(() => clipboardOf(program), `${what}, way ${at + 1}`).toBe(command)
    }
  }
  expect(program.complaints).toEqual([])
})

test('an entry with several commands has an outcome for each, and unknown is never taken for succeeded', async ({
  program,
}) => {
  const { page } = program
  await beginProject(page, 'Move the mast UPS')
  const action = await writeAction(page, block('sh', 'systemctl stop logger', 'systemctl start logger'))
  const together = (outcome: string) => action.getByRole('button', { name: `${outcome}: outcome` })
  await expect(together('unknown')).toBeVisible()
  await action.focus()
  await page.keyboard.press('o')
  const stop = action.getByRole('listitem', { name: /^systemctl stop logger/ })
  const start = action.getByRole('listitem', { name: /^systemctl start logger/ })
  await expect(stop).toBeFocused()
  await page.keyboard.press('s')
  await expect(stop).toHaveAccessibleName('systemctl stop logger: succeeded')
  await expect(start).toHaveAccessibleName('systemctl start logger: unknown')
  await expect(together('unknown')).toBeVisible()
  await page.keyboard.press('ArrowDown')
  await expect(start).toBeFocused()
  await page.keyboard.press('c')
  await expect.poll(() => clipboardOf(program)).toBe('systemctl start logger')
  await start.getByRole('button', { name: 'Succeeded' }).click()
  await expect(together('succeeded')).toBeVisible()
  await stop.getByRole('button', { name: 'Failed' }).click()
  await expect(together('failed')).toBeVisible()
  await page.keyboard.press('Escape')
  await expect(stop).toHaveCount(0)
  await expect(action).toBeFocused()
  await program.restart()
  const again = entries(program.page).last()
  await again.getByRole('button', { name: 'failed: outcome' }).click()
  await program.page.getByRole('menuitem', { name: /Each of its 2 commands/ }).click()
  await expect(again.getByRole('listitem', { name: /^systemctl start logger/ })).toHaveAccessibleName(
    'systemctl start logger: succeeded',
  )
  expect(program.complaints).toEqual([])
})

test('an action in words alone shows no outcome until one is set', async ({ program }) => {
  const { page } = program
  await beginProject(page, 'Move the mast UPS')
  const action = await writeAction(page, 'Opened the case and blew the dust out of the fan.')
  const outcome = action.getByRole('button', { name: /: outcome of this action/ })
  await expect(outcome).toHaveCount(0)
  await action.focus()
  await page.keyboard.press('s')
  await expect(outcome).toHaveAccessibleName(/^succeeded/)
  await page.getByRole('button', { name: 'Filter the journal' }).click()
  await page.getByLabel('Outcome of actions').selectOption('unknown')
  await expect(entries(page)).toHaveCount(0)
  expect(program.complaints).toEqual([])
})
