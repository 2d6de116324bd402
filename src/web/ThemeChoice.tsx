import { Select } from './parts/Choice.tsx';
import { chooseTheme, type Theme, theme } from './theme.ts';

export function ThemeChoice() {
  return (
    <Select<Theme>
      look="theme"
      label="Theme"
      value={theme.value}
      options={[
        { value: 'auto', label: 'system' },
        { value: 'light', label: 'light' },
        { value: 'dark', label: 'dark' },
      ]}
      onValue={chooseTheme}
    />
  );
}
