// The place one looks at, as it stands in the URL: `#/labeller/machine.yaml?at=networks.cycle@drives`.

export interface PlaceInUrl {
  readonly file: string | undefined;
  readonly address: string | undefined;
}

export function readHash(hash: string): PlaceInUrl {
  const [path = '', query = ''] = hash.replace(/^#\/?/, '').split('?', 2);
  const address = new URLSearchParams(query).get('at');
  return { file: path === '' ? undefined : decoded(path), address: address ?? undefined };
}

export const printHash = ({ file, address }: PlaceInUrl): string => {
  const path = (file ?? '').split('/').map(encodeURIComponent).join('/');
  return `#/${path}${address === undefined ? '' : `?at=${encodeURIComponent(address).replaceAll('%40', '@')}`}`;
};

/** A path that somebody mistyped is taken as it stands. */
function decoded(path: string): string {
  try {
    return decodeURIComponent(path);
  } catch (error) {
    if (error instanceof URIError) return path;
    throw error;
  }
}
