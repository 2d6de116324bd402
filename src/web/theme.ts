/** Light, dark, or as the room's computer says; the choice stays in this browser. */
import { signal } from '@preact/signals';

export type Theme = 'auto' | 'light' | 'dark';
const KEY = 'platterside-theme';

function stored(): Theme {
  try {
    const value = localStorage.getItem(KEY);
    return value === 'light' || value === 'dark' ? value : 'auto';
  } catch {
    return 'auto';
  }
}

export const theme = signal<Theme>(stored());
const dark = matchMedia('(prefers-color-scheme: dark)');

function apply(): void {
  const shown = theme.value === 'auto' ? (dark.matches ? 'dark' : 'light') : theme.value;
  document.documentElement.dataset.theme = shown;
}

export function chooseTheme(choice: Theme): void {
  theme.value = choice;
  try {
    localStorage.setItem(KEY, choice);
  } catch {
    // a browser that keeps nothing still shows what was chosen
  }
  apply();
}

dark.addEventListener('change', apply);
theme.subscribe(apply);
