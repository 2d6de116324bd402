/**
 * The stored data of one station, for its page.
 *
 *     const place = useStation<PlaceData>(jobId, 'place');
 *     <FieldEntry field={…} text={place.data.pivot} onText={(pivot) => place.set({ pivot })} />
 *
 * `set` merges; the change shows at once and is saved by itself, also later when the server is away. Keep what was typed
 * as the person's own text and read it with `readQuantity`, so that nothing typed is lost. `data` may lack any key.
 */
import type { OpenStatus, StationData, StationStatus } from '../core/job/api.ts';
import type { StationName } from '../core/job/station.ts';
import { draftOf } from './stationDraft.ts';

export interface Station<T> {
  readonly data: Partial<T>;
  readonly status: StationStatus;
  /** false while something typed has not reached the disk */
  readonly saved: boolean;
  set(patch: Partial<T>): void;
  setStatus(status: OpenStatus): void;
}

export function useStation<T extends object = StationData>(jobId: string, name: StationName): Station<T> {
  const draft = draftOf(jobId, name);
  return {
    data: draft.data.value as Partial<T>,
    status: draft.status.value,
    saved: draft.saved.value,
    set: draft.change as Station<T>['set'],
    setStatus: (status) => draft.change({}, status),
  };
}
