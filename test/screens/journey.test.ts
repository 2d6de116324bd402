import { wholeJourney } from './wholeJourney.ts';

wholeJourney('chromium');
