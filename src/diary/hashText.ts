/**
 * A quick 64-bit fingerprint that tells changed text from unchanged. Not for secrets: whoever writes a diary could make two
 * texts agree, and would only keep his own change from being seen.
 */

/** Sixteen hexadecimal digits. Two lanes of multiply-and-fold over UTF-16 units, mixed at the end. */
export const hashText = (text: string): string => {
  let left = 0x9e3779b9;
  let right = 0x85ebca6b;
  for (let index = 0; index < text.length; index++) {
    const unit = text.charCodeAt(index);
    left = Math.imul(left ^ unit, 0x01000193);
    right = Math.imul((right ^ unit) + 0x27d4eb2f, 0x165667b1);
    right ^= right >>> 15;
  }
  return mix(left ^ text.length, right) + mix(right, left);
};

/** The same for octets. */
export const hashOctets = (octets: Uint8Array): string => {
  let left = 0x9e3779b9;
  let right = 0x85ebca6b;
  const { length } = octets;
  const whole = length - (length % 4);
  for (let index = 0; index < length; index += index < whole ? 4 : 1) {
    let unit = octets[index] as number;
    if (index < whole) {
      unit |= (octets[index + 1] as number) << 8;
      unit |= (octets[index + 2] as number) << 16;
      unit |= (octets[index + 3] as number) << 24;
    }
    left = Math.imul(left ^ unit, 0x01000193);
    left ^= left >>> 13;
    right = Math.imul((right ^ unit) + 0x27d4eb2f, 0x165667b1);
    right ^= right >>> 15;
  }
  return mix(left ^ length, right) + mix(right, left);
};

const mix = (first: number, second: number): string => {
  let value = first ^ (second >>> 16);
  value = Math.imul(value ^ (value >>> 15), 0x2c1b3c6d);
  value = Math.imul(value ^ (value >>> 12), 0x297a2d39);
  return ((value ^ (value >>> 15)) >>> 0).toString(16).padStart(8, "0");
};
