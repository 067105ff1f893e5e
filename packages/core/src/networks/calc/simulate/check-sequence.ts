// The frame check sequence of Ethernet: the 32-bit cyclic redundancy check of IEEE Std 802.3, 3.2.9, in the order of sending.

const polynomial = 0xedb88320;

const table = Int32Array.from({ length: 256 }, (_, octet) => {
  let rest = octet;
  for (let bit = 0; bit < 8; bit++) rest = (rest & 1) === 1 ? (rest >>> 1) ^ polynomial : rest >>> 1;
  return rest;
});

/** Its four octets are sent least significant first. */
export function checkSequence(octets: Uint8Array): number {
  let rest = -1;
  for (const octet of octets) rest = table[(rest ^ octet) & 0xff]! ^ (rest >>> 8);
  return ~rest >>> 0;
}
