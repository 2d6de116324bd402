/** On the parts page a dropped file is one of parts, not a recording: taken before the whole window takes it. */
import { useEffect } from 'preact/hooks';

const carriesFiles = (event: DragEvent): boolean => event.dataTransfer?.types.includes('Files') === true;

export function usePartsDrop(onFile: (file: File) => void): void {
  useEffect(() => {
    let depth = 0;
    const show = (on: boolean): void => {
      document.body.classList.toggle('dropping', on);
      document.body.dataset.drop = 'Let go to import these parts';
    };
    const take = (event: DragEvent): void => {
      if (!carriesFiles(event)) return;
      event.preventDefault();
      event.stopPropagation();
      if (event.type === 'dragenter') depth += 1;
      else if (event.type === 'dragleave') depth = Math.max(0, depth - 1);
      else if (event.type === 'drop') {
        depth = 0;
        const [file] = event.dataTransfer?.files ?? [];
        if (file !== undefined) onFile(file);
      }
      show(depth > 0);
    };
    const kinds = ['dragenter', 'dragleave', 'dragover', 'drop'] as const;
    for (const kind of kinds) addEventListener(kind, take, { capture: true });
    return () => {
      for (const kind of kinds) removeEventListener(kind, take, { capture: true });
      show(false);
    };
  }, [onFile]);
}
