/** A white AVIF of 2 by 2 pixels, by an outside encoder (libavif). */
const SMALLEST =
  'AAAAHGZ0eXBhdmlmAAAAAGF2aWZtaWYxbWlhZgAAAOltZXRhAAAAAAAAACFoZGxyAAAAAAAAAABwaWN0AAAAAAAAAAAAAAAAAAAAAA5waXRtAAAA' +
  'AAABAAAAHmlsb2MAAAAARAAAAQABAAAAAQAAAQ0AAAAaAAAAKGlpbmYAAAAAAAEAAAAaaW5mZQIAAAAAAQAAYXYwMUNvbG9yAAAAAGhpcHJwAAAA' +
  'SWlwY28AAAAUaXNwZQAAAAAAAAACAAAAAgAAAA5waXhpAAAAAAEIAAAADGF2MUOBABwAAAAAE2NvbHJuY2x4AAEADQAGgAAAABdpcG1hAAAAAAAA' +
  'AAEAAQQBAoMEAAAAIm1kYXQSAAoHGAA2mAhoNTINHsVZ3/4sAJA1kW5XRA==';

/** Whether this browser decodes AVIF at all: an AVIF that fails is then damaged. Found out by decoding one. */
export async function readsAvif(): Promise<boolean> {
  const bytes = Uint8Array.from(atob(SMALLEST), (letter) => letter.charCodeAt(0));
  try {
    (await createImageBitmap(new Blob([bytes], { type: 'image/avif' }))).close();
    return true;
  } catch {
    return false;
  }
}
