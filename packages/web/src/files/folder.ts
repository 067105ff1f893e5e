// The folder on the server: its machine files, saves that never overwrite what somebody else wrote, and news of changes.

export interface FileEntry {
  readonly path: string;
  readonly bytes: number;
}

export interface FileText {
  readonly path: string;
  /** With the line breaks of the page, `\n`. */
  readonly text: string;
  readonly version: string;
}

export type Saved =
  | { readonly kind: 'saved'; readonly version: string }
  /** The file on disk is not the one that this text was made from. */
  | { readonly kind: 'other'; readonly version: string | null; readonly text: string }
  | { readonly kind: 'refused'; readonly says: string; readonly advice: string }
  | { readonly kind: 'away' };

export interface Folder {
  list(): Promise<readonly FileEntry[] | undefined>;
  /** Nothing when there is no such file, or the server is away. */
  load(path: string): Promise<FileText | undefined>;
  save(path: string, text: string, base: string | null): Promise<Saved>;
  /** Tells of every change of a file of the folder, by whatever hand. */
  follow(onChange: (change: { readonly path: string; readonly version: string | null }) => void): void;
}

/** Line breaks of a file stay as they are on disk: those that a file was loaded with are written again. */
export function openFolder(): Folder {
  const breaks = new Map<string, string>();
  const shown = (path: string, text: string): string => {
    breaks.set(path, /\r\n/.test(text) ? '\r\n' : '\n');
    return text.replaceAll('\r\n', '\n');
  };
  return {
    list: async () => {
      const answer = await asked('/api/files');
      return answer?.ok ? ((await answer.json()) as { files: FileEntry[] }).files : undefined;
    },
    load: async (path) => {
      const answer = await asked(`/api/file?path=${encodeURIComponent(path)}`);
      if (!answer?.ok) return undefined;
      const file = (await answer.json()) as FileText;
      return { ...file, text: shown(path, file.text) };
    },
    save: async (path, text, base) => {
      const answer = await asked('/api/file', {
        method: 'PUT',
        headers: { 'content-type': 'application/json' },
        body: JSON.stringify({ path, text: text.replaceAll('\n', breaks.get(path) ?? '\n'), base }),
      });
      if (answer === undefined) return { kind: 'away' };
      const told = (await answer.json()) as {
        version: string | null;
        text?: string;
        error?: { says: string; advice: string };
      };
      if (answer.ok) return { kind: 'saved', version: told.version! };
      if (answer.status === 409) return { kind: 'other', version: told.version, text: shown(path, told.text ?? '') };
      return { kind: 'refused', says: 'The file could not be saved.', advice: '', ...told.error };
    },
    follow: (onChange) => {
      const events = new EventSource('/api/changes');
      events.addEventListener('message', ({ data }) => onChange(JSON.parse(data)));
    },
  };
}

/** A request; nothing when the server cannot be reached. */
async function asked(url: string, init?: RequestInit): Promise<Response | undefined> {
  try {
    return await fetch(url, { ...init, cache: 'no-store' });
  } catch (error) {
    if (error instanceof TypeError) return undefined;
    throw error;
  }
}
