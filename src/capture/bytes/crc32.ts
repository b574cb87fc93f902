// The check sum of gzip, zip and PNG.

const crcTable = Uint32Array.from({ length: 256 }, (_, byte) => {
  let value = byte;
  for (let bit = 0; bit < 8; bit++) value = value & 1 ? (value >>> 1) ^ 0xedb88320 : value >>> 1;
  return value;
});

/** CRC-32 as gzip and zip (RFC 1952, section 8) and PNG (ISO/IEC 15948, annex D) use it. */
export class Crc32 {
  #state = 0xffffffff;

  take(bytes: Uint8Array): void {
    let state = this.#state;
    for (let i = 0; i < bytes.length; i++) state = crcTable[(state ^ bytes[i]!) & 255]! ^ (state >>> 8);
    this.#state = state;
  }

  get value(): number {
    return (this.#state ^ 0xffffffff) >>> 0;
  }
}
