/** SHA-256 of some bytes, 64 hexadecimal digits. Source: FIPS 180-4, by the platform's own Web Crypto. */
export async function sha256(bytes: Uint8Array): Promise<string> {
  const digest = await crypto.subtle.digest('SHA-256', new Uint8Array(bytes));
  return Array.from(new Uint8Array(digest), (byte) => byte.toString(16).padStart(2, '0')).join('');
}
