/** What is chosen at Place from a few. */
import { type CriterionName, criteria } from '../../../geometry/criteria.ts';
import { chosen, explained } from '../../fields/chosen.ts';

export const armChoices = {
  known: chosen('What do you know of the arm?', {
    'spindle-to-pivot': 'spindle to pivot',
    'effective-length': 'effective length',
    overhang: 'overhang',
    tangential: 'tangential arm',
  }),
  movable: explained(
    'What can be moved?',
    {
      both: 'slide and twist',
      slide: 'slide only',
      twist: 'twist only',
      slots: 'slots with ends',
      nothing: 'nothing',
    },
    {
      both: 'movable-open-slots',
      slide: 'movable-no-twist',
      twist: 'movable-no-slide',
      slots: 'movable-stops',
      nothing: 'movable-nothing',
    },
  ),
  criterion: chosen(
    'Set it for',
    Object.fromEntries(criteria.map(({ name, title }) => [name, title])) as Record<CriterionName, string>,
  ),
  speed: chosen('Speed, rpm', { '33': '33⅓', '45': '45', '78': '78.26', own: 'another' }),
};

export const readChoices = {
  kind: explained(
    'You read',
    {
      miss: 'the tip’s miss on the arc template',
      twist: 'the twist at both points of the two-point template',
      square: 'the two radii where it is square',
      ruler: 'the overhang, by ruler',
      stated: 'effective length and offset, from elsewhere',
    },
    { miss: 'read-miss', twist: 'read-twist', square: 'read-square', ruler: 'read-ruler', stated: 'read-stated' },
  ),
  sheetFor: chosen('The template that was read was drawn', {
    solved: 'for the arm above, as it is now',
    printed: 'the one saved or printed here last',
    other: 'for other numbers, which are printed on it',
  }),
};

export const sheetChoices = {
  style: explained(
    'Which template?',
    { arc: 'arc template', 'two-point': 'two-point template' },
    { arc: 'template-arc', 'two-point': 'template-two-point' },
  ),
  paper: chosen('Paper', { a4: 'A4', letter: 'Letter' }),
  mains: chosen('The lamp runs on mains of', { '50': '50 Hz', '60': '60 Hz' }),
};
