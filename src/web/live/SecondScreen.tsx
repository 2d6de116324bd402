/** The second screen at the bench: on and off, its address as text and picture, the code, whether a screen is there. */
import { useEffect } from 'preact/hooks';
import type { SecondState } from '../../core/job/api.ts';
import type { StationName } from '../../core/job/station.ts';
import { say, statement } from '../../core/words/statement.ts';
import { Select } from '../parts/Choice.tsx';
import {
  renewSecondCode,
  second,
  secondProblem,
  secondStation,
  secondTurning,
  turnSecondOff,
  turnSecondOn,
} from './secondScreen.ts';

export function SecondScreen({ station }: { station: StationName }) {
  useEffect(() => {
    secondStation.value = station;
  }, [station]);
  const state = second.value;
  return (
    <details class="second">
      <summary>
        <b>Second screen beside the deck</b>
        {state.on && <span class="soft"> on</span>}
      </summary>
      <div class="stack">
        {secondProblem.value !== null && (
          <p class="notice bad" role="alert">
            {secondProblem.value}
          </p>
        )}
        {state.on ? <On state={state} /> : <Off why={state.why} />}
      </div>
    </details>
  );
}

function Off({ why }: { why: string }) {
  return (
    <>
      {why !== '' && <p role="status">{why}</p>}
      <p class="soft small">
        {say(statement('second-what'))} {say(statement('second-plain'))}
      </p>
      <div class="buttons">
        <button type="button" class="button" disabled={secondTurning.value} onClick={() => void turnSecondOn()}>
          Turn the second screen on
        </button>
      </div>
    </>
  );
}

function On({ state }: { state: Extract<SecondState, { on: true }> }) {
  const { url, address, addresses, code, qr, device } = state;
  return (
    <>
      <div class="second-on">
        <svg class="second-qr" viewBox={`0 0 ${qr.size} ${qr.size}`} role="img" aria-label={`QR code of ${url}`}>
          <rect width={qr.size} height={qr.size} fill="#fff" />
          <path d={qr.path} fill="#000" />
        </svg>
        <div class="stack">
          {code === null ? (
            <p role="status">{say(statement(device === 'connected' ? 'second-connected' : 'second-away'))}</p>
          ) : (
            <>
              <p>{say(statement('second-how'))}</p>
              <p class="second-url">{url}</p>
              <p class="second-code">
                {code.slice(0, 3)} {code.slice(3)}
              </p>
              <p class="soft small">{say(statement('second-code-life'))}</p>
            </>
          )}
        </div>
      </div>
      <div class="buttons">
        <button type="button" class="button stop" onClick={() => void turnSecondOff()}>
          Turn the second screen off
        </button>
        {code === null && (
          <button type="button" class="button" onClick={() => void renewSecondCode()}>
            Let another screen in
          </button>
        )}
        {addresses.length > 1 && (
          <Select
            label="Network"
            value={address}
            onValue={(value) => void turnSecondOn(value)}
            options={addresses.map((one) => ({ value: one.address, label: `${one.name} ${one.address}` }))}
          />
        )}
      </div>
    </>
  );
}
