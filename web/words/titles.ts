/** Titles of pages that are no part of the first script, whose words come with them. */
export const setupTitle = 'Set-up';
