import { wholeJourney } from './wholeJourney.ts';

wholeJourney('firefox');
