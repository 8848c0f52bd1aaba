import type { BuildState, Picture } from './schema';

/** The hanging pictures of a state, those set aside among them: their order numbers them everywhere. */
export const hangsOf = (state: BuildState): readonly Picture[] =>
  state.pictures.filter((picture) => picture.kind === 'hanging');

/** Number of a hanging picture, from 1; 0 for any other. */
export const hangNumber = (state: BuildState, pictureId: string): number =>
  hangsOf(state).findIndex(({ id }) => id === pictureId) + 1;
