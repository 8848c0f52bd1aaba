export { decodePicture, type DecodeOptions, type KeptPicture, type PictureReason } from './decodePicture';
export { LONGEST_SIDE, STAGES, type Progress, type Stage } from './protocol';
