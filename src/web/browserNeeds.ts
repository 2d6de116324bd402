/** What a browser may lack, said instead of met. */
import { type Statement, statement } from '../core/words/statement.ts';

/** Why nothing can be read or heard here, or null. */
export const lacksWorkers = (): Statement | null =>
  typeof Worker === 'undefined' ? statement('browser-without-workers') : null;

/** Why nothing can be listened to or played here, or null. */
export const lacksAudio = (): Statement | null =>
  typeof AudioContext === 'undefined' || typeof AudioWorkletNode === 'undefined'
    ? statement('browser-without-audio')
    : null;
