/** A button that opens the browser's own choice of files. */
import { useId } from 'preact/hooks';

export function FilePick({
  label,
  accept,
  main = false,
  several = false,
  hint,
  onFiles,
}: {
  label: string;
  accept: string;
  main?: boolean;
  several?: boolean;
  /** what may be picked, at most eight words */
  hint?: string;
  onFiles(files: File[]): void;
}) {
  const id = useId();
  const button = (
    <label class={main ? 'button main' : 'button'}>
      {label}
      <input
        type="file"
        multiple={several}
        accept={accept}
        aria-describedby={hint === undefined ? undefined : id}
        onChange={(event) => {
          const files = [...(event.currentTarget.files ?? [])];
          event.currentTarget.value = '';
          if (files.length > 0) onFiles(files);
        }}
      />
    </label>
  );
  if (hint === undefined) return button;
  return (
    <div class="field">
      <span>{button}</span>
      <span class="hint" id={id}>
        {hint}
      </span>
    </div>
  );
}
