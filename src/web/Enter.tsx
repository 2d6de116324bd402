/** A browser that the server does not know is shown how it is let in. What was typed stays and is saved then. */

import { useState } from 'preact/hooks';
import { MOST_LINE, type Wording } from '../core/job/fields/wording.ts';
import { api, locked } from './api.ts';
import { tryAgain, unsavedWrites } from './connection.ts';
import { TextField } from './parts/TextField.tsx';

const keyWording: Wording = { label: 'Key', most: MOST_LINE };

export function Enter() {
  const [key, setKey] = useState('');
  const [said, setSaid] = useState('');
  const enter = (): void => {
    api.enter(key).then(
      () => {
        if (unsavedWrites.value === 0) location.reload();
        else {
          locked.value = false;
          tryAgain();
        }
      },
      (error: Error) => setSaid(error.message),
    );
  };
  return (
    <form
      class="card"
      aria-label="Let this browser in"
      onSubmit={(event) => {
        event.preventDefault();
        enter();
      }}
    >
      <h2>This browser has not been let in</h2>
      <p>
        Jobs are open to the account that started the bench server, and to no other. Open the address that{' '}
        <code>platterside serve</code> printed, or type the key here. It is in the file beside the jobs whose name ends
        in <code>.key</code>.
      </p>
      <div class="fields">
        <TextField of={keyWording} text={key} onText={setKey} />
      </div>
      <p>
        <button type="submit" class="button main" disabled={key.trim() === ''}>
          Enter
        </button>
      </p>
      <p role="status">{said}</p>
    </form>
  );
}
