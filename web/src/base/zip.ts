// SPDX-License-Identifier: GPL-3.0-or-later
// Several files as one ZIP archive, as they are: what is sent to a program on the same machine need not be compressed.
//   Source   APPNOTE.TXT, .ZIP File Format Specification 6.3.9: 4.3.7, 4.3.12, 4.3.16; CRC-32 of ISO/IEC 3309
//   Checked  test/base/zip.test.ts: the CRC's check value; archives read by Python's zipfile
export interface ZipPart {
  readonly name: string;
  readonly bytes: Uint8Array<ArrayBuffer>;
}

const kVersion = 20;
const kNamesInUtf8 = 0x800;

const table = Uint32Array.from({ length: 256 }, (_, byte) => {
  let crc = byte;
  for (let bit = 0; bit < 8; ++bit) crc = crc & 1 ? (crc >>> 1) ^ 0xedb88320 : crc >>> 1;
  return crc >>> 0;
});
export function crc_32(bytes: Uint8Array): number {
  let crc = 0xffffffff;
  for (const byte of bytes) crc = (crc >>> 8) ^ (table[(crc ^ byte) & 0xff] ?? 0);
  return (crc ^ 0xffffffff) >>> 0;
}

/** Numbers, each of so many bytes, the lowest first. */
function packed(...numbers: readonly (readonly [value: number, bytes: 2 | 4])[]): Uint8Array<ArrayBuffer> {
  return Uint8Array.from(
    numbers.flatMap(([value, bytes]) => Array.from({ length: bytes }, (_, i) => (value >>> (8 * i)) & 0xff)),
  );
}

export function zipped(parts: readonly ZipPart[]): Blob {
  const bodies: Uint8Array<ArrayBuffer>[] = [];
  const directory: Uint8Array<ArrayBuffer>[] = [];
  const length = (all: readonly Uint8Array[]): number => all.reduce((sum, each) => sum + each.length, 0);
  for (const { name, bytes } of parts) {
    const letters = new TextEncoder().encode(name);
    const facts = [
      [kVersion, 2],
      [kNamesInUtf8, 2],
      [0, 2],
      [0, 4],
      [crc_32(bytes), 4],
      [bytes.length, 4],
      [bytes.length, 4],
      [letters.length, 2],
      [0, 2],
    ] as const;
    const at = length(bodies);
    bodies.push(packed([0x04034b50, 4], ...facts), letters, bytes);
    directory.push(packed([0x02014b50, 4], [kVersion, 2], ...facts, [0, 2], [0, 2], [0, 2], [0, 4], [at, 4]), letters);
  }
  const count = parts.length;
  const end = packed(
    [0x06054b50, 4],
    [0, 4],
    [count, 2],
    [count, 2],
    [length(directory), 4],
    [length(bodies), 4],
    [0, 2],
  );
  return new Blob([...bodies, ...directory, end], { type: "application/zip" });
}
