/** A response that is kept with a part: picked as a CSV file, told by its span, taken out again. */
import { useState } from 'preact/hooks';
import type { ResponseField } from '../../core/job/partFields.ts';
import { LONGEST_RESPONSE } from '../../core/job/parts.ts';
import { responseFault, responseSpan } from '../../core/job/stations/run/responses.ts';
import { FilePick } from '../parts/FilePick.tsx';

export interface ResponseEntryProps {
  readonly field: ResponseField;
  /** '' where none is kept */
  readonly csv: string;
  onCsv(csv: string): void;
}

export function ResponseEntry({ field, csv, onCsv }: ResponseEntryProps) {
  const [fault, setFault] = useState<string | null>(null);
  const take = async ([file]: File[]): Promise<void> => {
    const text = await file.text();
    const why = responseFault(text, file.name, LONGEST_RESPONSE);
    setFault(why);
    if (why === null) onCsv(text);
  };
  return (
    <fieldset class="field wide">
      <legend>{field.label}</legend>
      <p class="hint">{csv === '' ? field.help : responseSpan(csv)}</p>
      <div class="buttons">
        <FilePick
          label={csv === '' ? 'Choose its CSV' : 'Choose another CSV'}
          accept=".csv,.txt,text/csv"
          onFiles={(files) => void take(files)}
        />
        {csv !== '' && (
          <button type="button" class="button" onClick={() => onCsv('')}>
            Leave it out
          </button>
        )}
      </div>
      {fault !== null && (
        <p class="wrong-line" role="alert">
          {fault}
        </p>
      )}
    </fieldset>
  );
}
