/** The page's door to the reading of quantities. */
export * from '../../core/job/fields/quantity.ts';
