import { useId } from 'preact/hooks';
import { chooseTheme, type Theme, theme } from './theme.ts';

export function ThemeChoice() {
  const id = useId();
  return (
    <div class="field theme">
      <label for={id}>Theme</label>
      <select id={id} value={theme.value} onChange={(event) => chooseTheme(event.currentTarget.value as Theme)}>
        <option value="auto">system</option>
        <option value="light">light</option>
        <option value="dark">dark</option>
      </select>
    </div>
  );
}
