import { useId } from 'preact/hooks';
import { chooseTheme, type Theme, theme } from './theme.ts';

export function ThemeChoice() {
  const id = useId();
  return (
    <div class="field theme">
      <label for={id}>Light</label>
      <select id={id} value={theme.value} onChange={(event) => chooseTheme(event.currentTarget.value as Theme)}>
        <option value="auto">as this computer</option>
        <option value="light">light paper</option>
        <option value="dark">dark room</option>
      </select>
    </div>
  );
}
