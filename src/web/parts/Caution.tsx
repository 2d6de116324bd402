/** What can hurt a person, a stylus or an amplifier, beside the work it belongs to. */
import type { ComponentChildren } from 'preact';

export function Caution({ title = 'Caution:', children }: { title?: string; children: ComponentChildren }) {
  return (
    <div class="caution" role="note">
      <b>{title}</b> {children}
    </div>
  );
}
