// SPDX-License-Identifier: GPL-3.0-or-later

/** What came over the wire as base64. */
export function bytes_of(base64: string): Uint8Array<ArrayBuffer> {
  const binary = atob(base64);
  const bytes = new Uint8Array(binary.length);
  for (let i = 0; i < binary.length; ++i) bytes[i] = binary.charCodeAt(i);
  return bytes;
}
