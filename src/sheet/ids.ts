const ALPHABET = 'abcdefghijkmnpqrstuvwxyz23456789';

/**
 * A short random id, 12 characters of 32 (60 bits): no two in a sheet or a browser's store are ever the same.
 * Not crypto.randomUUID(), which a page served over plain http in a club's hall does not have.
 */
export function newId(): string {
  const bytes = crypto.getRandomValues(new Uint8Array(12));
  return Array.from(bytes, (byte) => ALPHABET[byte % ALPHABET.length]).join('');
}
