export { decodePicture, type KeptPicture, type PictureReason } from './decodePicture';
export { LONGEST_SIDE } from './protocol';
