// Frames as a capture file: pcapng as draft-ietf-opsawg-pcapng describes it, one section with Ethernet interfaces, stamps in
// nanoseconds, and a comment and flags with every frame. Little-endian throughout.

/** A frame from destination address to check sequence, and what is known of it. */
export interface CapturedFrame {
  /** Its place among the interfaces. */
  readonly port: number;
  readonly stamp_ns: bigint;
  readonly octets: Uint8Array;
  /** Seen from the interface. */
  readonly direction: 'outbound' | 'inbound';
  readonly hasCheckError: boolean;
  readonly comment: string;
}

export interface CapturedInterface {
  readonly name: string;
  readonly description: string;
  readonly bits_per_s: number;
}

/** The octets of the frame check sequence, which every frame has at its end; its flags say so, as drafts differ on if_fcslen. */
const checkOctets = 4;
/** Codes of blocks, options and flags, by their names in the draft. */
const block = { section: 0x0a0d0d0a, interface: 1, enhancedPacket: 6 } as const;
const option = {
  comment: 1,
  shb_userappl: 4,
  if_name: 2,
  if_description: 3,
  if_speed: 8,
  if_tsresol: 9,
  epb_flags: 2,
} as const;
const byteOrderMagic = 0x1a2b3c4d;
const linkTypeEthernet = 1;
const nanoseconds = 9;
const flags = { inbound: 1, outbound: 2, fcsLengthShift: 5, checkError: 1 << 24 } as const;

/** The file: section header, interface descriptions, and an enhanced packet for each frame, in the order given. */
export function pcapng(
  comment: string,
  interfaces: readonly CapturedInterface[],
  frames: readonly CapturedFrame[],
): Uint8Array {
  return joined([
    blockOf(block.section, [
      u32(byteOrderMagic),
      u16(1),
      u16(0),
      // The length of the section is not told.
      u64(2n ** 64n - 1n),
      optionsOf([
        [option.comment, text(comment)],
        [option.shb_userappl, text('Layshaft')],
      ]),
    ]),
    ...interfaces.map(interfaceOf),
    ...frames.map(packetOf),
  ]);
}

const interfaceOf = ({ name, description, bits_per_s }: CapturedInterface): Uint8Array =>
  blockOf(block.interface, [
    u16(linkTypeEthernet),
    u16(0),
    // No limit to what is kept of a frame.
    u32(0),
    optionsOf([
      [option.if_name, text(name)],
      [option.if_description, text(description)],
      [option.if_speed, u64(BigInt(Math.round(bits_per_s)))],
      [option.if_tsresol, Uint8Array.of(nanoseconds)],
    ]),
  ]);

function packetOf({ port, stamp_ns, octets, direction, hasCheckError, comment }: CapturedFrame): Uint8Array {
  const seen = flags[direction] | (checkOctets << flags.fcsLengthShift) | (hasCheckError ? flags.checkError : 0);
  return blockOf(block.enhancedPacket, [
    u32(port),
    u32(Number(stamp_ns >> 32n)),
    u32(Number(stamp_ns & 0xffff_ffffn)),
    u32(octets.length),
    u32(octets.length),
    padded(octets),
    optionsOf([
      [option.comment, text(comment)],
      [option.epb_flags, u32(seen)],
    ]),
  ]);
}

/** Type and length stand before a block, and the length once more behind it. */
function blockOf(type: number, parts: readonly Uint8Array[]): Uint8Array {
  const body = joined(parts);
  const length = u32(body.length + 12);
  return joined([u32(type), length, body, length]);
}

function optionsOf(options: readonly (readonly [code: number, value: Uint8Array])[]): Uint8Array {
  const end = u32(0);
  return joined([...options.flatMap(([code, value]) => [u16(code), u16(value.length), padded(value)]), end]);
}

/** The first octet of a character that so many more belong to. */
const leads = [0, 0xc0, 0xe0, 0xf0] as const;

/** In UTF-8 (RFC 3629); half a surrogate pair is the replacement character. */
function text(value: string): Uint8Array {
  const octets: number[] = [];
  for (const character of value) {
    const point = character.codePointAt(0)!;
    const code = point >= 0xd800 && point < 0xe000 ? 0xfffd : point;
    const more = code < 0x80 ? 0 : code < 0x800 ? 1 : code < 0x10000 ? 2 : 3;
    octets.push(leads[more]! | (code >> (6 * more)));
    for (let left = more - 1; left >= 0; left--) octets.push(0x80 | ((code >> (6 * left)) & 0x3f));
  }
  return Uint8Array.from(octets);
}

function padded(octets: Uint8Array): Uint8Array {
  const whole = new Uint8Array(Math.ceil(octets.length / 4) * 4);
  whole.set(octets);
  return whole;
}

function written(length: number, write: (view: DataView) => void): Uint8Array {
  const octets = new Uint8Array(length);
  write(new DataView(octets.buffer));
  return octets;
}

const u16 = (value: number): Uint8Array => written(2, (view) => view.setUint16(0, value, true));
const u32 = (value: number): Uint8Array => written(4, (view) => view.setUint32(0, value, true));
const u64 = (value: bigint): Uint8Array => written(8, (view) => view.setBigUint64(0, value, true));

function joined(parts: readonly Uint8Array[]): Uint8Array {
  const whole = new Uint8Array(parts.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const part of parts) {
    whole.set(part, at);
    at += part.length;
  }
  return whole;
}
