import type { Page } from 'playwright-core'

/** From the first sight of an empty workspace to the bench: a session of one sample clip, and a new hit on it. */
export async function newHitOn(page: Page, clip: string): Promise<void> {
  await page.getByRole('button', { name: 'Choose clips…' }).click()
  await page.getByRole('button', { name: 'sample-clips/' }).click()
  await page.getByLabel(`${clip}.mp4`).check()
  await page.getByRole('button', { name: 'Choose 1 clip' }).click()
  await page.getByLabel('Place', { exact: true }).fill('Hall with the long bench')
  await page.getByLabel('Capture rate').fill('240')
  await page.getByLabel('Exposure').fill('1/2000')
  await page.getByRole('button', { name: 'Keep session' }).click()
  await page.locator('.clip-name', { hasText: `${clip}.mp4` }).click()
  await page.getByRole('button', { name: 'New hit here' }).click()
  await page.locator('.ball-stage[data-shows="whole"]').waitFor()
}
