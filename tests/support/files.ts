// The files of the repository as pairs of path and text, the form that every tree-wide rule works on.
import { execFileSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';

export interface SourceFile {
  /** Path from the root, with forward slashes. */
  readonly path: string;
  readonly text: string;
}

/** A rule takes files and gives its violations, each as `path:line: what is wrong`. */
export type Rule = (files: readonly SourceFile[]) => string[];

/**
 * All files that git knows or would take in, that is without what .gitignore names; whoever owns the folder. A picture
 * counts without its octets, in which any word may stand by chance.
 */
export function repositoryFiles(): SourceFile[] {
  const list = ['ls-files', '-z', '--cached', '--others', '--exclude-standard'];
  return execFileSync('git', ['-c', 'safe.directory=*', ...list], { encoding: 'utf8' })
    .split('\0')
    .filter((path) => path !== '' && path !== 'package-lock.json' && existsSync(path))
    .map((path) => ({ path, text: path.endsWith('.png') ? '' : readFileSync(path, 'utf8') }));
}

export const isCode = ({ path }: SourceFile): boolean => /\.(ts|tsx|mjs|js)$/.test(path);
export const isTest = ({ path }: SourceFile): boolean => /\.test\.tsx?$/.test(path);
/** What only tests use. */
export const isTestSupport = ({ path }: SourceFile): boolean => /\.support\.tsx?$/.test(path);
