/**
 * The pages of the stations. To add one: export default a component that takes `StationProps` and name it here. The
 * frame around it shows heading, what became stale, notes and the button that closes the station.
 */
import type { FunctionComponent } from 'preact';
import type { StationName } from '../../core/job/station.ts';
import type { StationProps } from './station.ts';

type Load = () => Promise<{ default: FunctionComponent<StationProps> }>;

export const stationPages: Partial<Record<StationName, Load>> = {
  intake: () => import('./intake/IntakeStation.tsx'),
  match: () => import('./match/MatchStation.tsx'),
  fit: () => import('./fit/FitStation.tsx'),
  weigh: () => import('./weigh/WeighStation.tsx'),
  place: () => import('./place/PlaceStation.tsx'),
  height: () => import('./height/HeightStation.tsx'),
  tilt: () => import('./tilt/TiltStation.tsx'),
  run: () => import('./run/RunStation.tsx'),
  'hand-over': () => import('./handover/HandOverStation.tsx'),
};
