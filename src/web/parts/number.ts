/** The page's door to the reading and showing of numbers. */
export * from '../../core/job/fields/number.ts';
