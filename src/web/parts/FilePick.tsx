/** A button that opens the browser's own choice of files. */
export function FilePick({
  label,
  accept,
  main = false,
  several = false,
  onFiles,
}: {
  label: string;
  accept: string;
  main?: boolean;
  several?: boolean;
  onFiles(files: File[]): void;
}) {
  return (
    <label class={main ? 'button main' : 'button'}>
      {label}
      <input
        type="file"
        multiple={several}
        accept={accept}
        onChange={(event) => {
          const files = [...(event.currentTarget.files ?? [])];
          event.currentTarget.value = '';
          if (files.length > 0) onFiles(files);
        }}
      />
    </label>
  );
}
