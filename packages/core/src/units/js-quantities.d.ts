// The part of js-quantities 1.8.0, which brings no types, that the tests compare our sizes with.
declare module 'js-quantities' {
  export default function Qty(text: string): { toBase(): { scalar: number } };
}
