/** The preamp measured through an inverse RIAA network: the response shown becomes the preamp's own. */
import { useState } from 'preact/hooks';
import { responseAsCsv } from '../../../core/measure/responseCsv.ts';
import { say, statement } from '../../../core/words/statement.ts';
import { sideDocument } from '../../side/shownSide.ts';

export function SelfTest({ onKeep }: { onKeep(read: { file: string; csv: string }): void }) {
  const [kept, setKept] = useState(false);
  const document = sideDocument.value;
  const csv = document === null ? null : responseAsCsv(document.curves);
  return (
    <details class="hint">
      <summary>no CSV: measure the preamp</summary>
      <p>{say(statement('self-test-how'))}</p>
      {document !== null && csv !== null && (
        <button
          type="button"
          class="button"
          onClick={() => {
            onKeep({ file: `response of ${document.capture.file}`, csv });
            setKept(true);
          }}
        >
          Keep the response of {document.capture.file} as the preamp’s
        </button>
      )}
      {kept && <p role="status">{say(statement('self-test-kept'))}</p>}
    </details>
  );
}
