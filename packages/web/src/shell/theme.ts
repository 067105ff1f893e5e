// Light or dark: what was chosen last in this browser, else what the system prefers.
import { memory } from '../document/browser-memory.ts';

export const usualTheme = (): string => (matchMedia('(prefers-color-scheme: dark)').matches ? 'dark' : 'light');

export function applyTheme(theme: string): void {
  document.documentElement.dataset.theme = theme;
}

/** Gives the theme that now holds. */
export function switchTheme(): string {
  const theme = document.documentElement.dataset.theme === 'dark' ? 'light' : 'dark';
  applyTheme(theme);
  memory.keepTheme(theme);
  return theme;
}
